import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { planningGroupSequential } from "../../../src/methods/planning/group-sequential.ts";
import { planningStoppingRule } from "../../../src/methods/planning/stopping-rule.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { byDrawing, byEveryPath, type Rule } from "./every-path.ts";

/** Passing by the looks so far only, failures not obeyed: the end is made to fail. */
function passedBy(looks: readonly Rule[], truth: number): number {
  const obeyed = looks.map(({ total, passFrom }) => ({ total, passFrom }));
  const last = looks[looks.length - 1]?.total ?? 0;
  obeyed[obeyed.length - 1] = { ...obeyed[obeyed.length - 1], total: last } as (typeof obeyed)[number];
  const closed = obeyed.map((look, at) => (at === looks.length - 1 ? { ...look, failAt: last } : look));
  return byEveryPath(closed, truth).pass;
}

/** Failing by the last of these looks, every earlier border obeyed. */
function failedBy(looks: readonly Rule[], truth: number): number {
  const last = looks[looks.length - 1] as Rule;
  const failAt = last.failAt ?? -1;
  return 1 - byEveryPath([...looks.slice(0, -1), { ...last, failAt, passFrom: failAt + 1 }], truth).pass;
}

const PLAN = fc.record({
  unacceptable: fc.integer({ min: 10, max: 70 }).map((percent) => percent / 100),
  gain: fc.integer({ min: 10, max: 28 }).map((percent) => percent / 100),
  total: fc.integer({ min: 6, max: 11 }),
  fractions: fc.constantFrom<number[][]>([1], [0.5, 1], [0.3, 0.7, 1], [0.25, 0.5, 0.75, 1]),
  spending: fc.constantFrom<("obrien_fleming" | "pocock")[]>("obrien_fleming", "pocock"),
  failure: fc.boolean(),
  error: fc.constantFrom(0.025, 0.05, 0.2),
});

/** A border that is just reached: sums in another order differ in their last places. */
const JUST = 1 + 1e-9;

describe("borders found from spending", () => {
  it("keep the error, and would not with one less, by following every sequence of results", () => {
    let borders = 0;
    fc.assert(
      fc.property(PLAN, ({ unacceptable, gain, total, fractions, ...options }) => {
        const expected = unacceptable + gain;
        const asked = { unacceptable, expected, fractions };
        const found = compute(planningGroupSequential, asked, { ...options, total, power: 0.8 });
        expect(faultsOf(found)).toEqual([]);
        const { looks, error, power, expectedTotal } = found.values;
        if (looks.length === 0) return;
        looks.forEach((look, at) => {
          const upTo = looks.slice(0, at + 1);
          expectClose(look.errorSpent, passedBy(upTo, unacceptable), { absolute: 1e-13 }, "spent");
          const allowed = look.errorAllowed ?? 0;
          expect(look.errorSpent).toBeLessThanOrEqual(allowed * JUST);
          const lower = (look.passFrom ?? look.total + 1) - 1;
          const looser = passedBy([...looks.slice(0, at), { ...look, passFrom: lower }], unacceptable);
          expect(looser).toBeGreaterThan(allowed);
          borders += 1;
        });
        expectClose(error, byEveryPath(looks, unacceptable).pass, { absolute: 1e-13 }, "error");
        expectClose(power, byEveryPath(looks, expected).pass, { absolute: 1e-13 }, "power");
        expectClose(expectedTotal.expected, byEveryPath(looks, expected).mean, { relative: 1e-12 }, "people");
      }),
      { numRuns: 50, seed: 5 },
    );
    expect(borders).toBeGreaterThan(50);
  });

  it("stop for failure as late as the missing power allows, and as early", () => {
    let stops = 0;
    fc.assert(
      fc.property(PLAN, ({ unacceptable, gain, total, fractions, spending, error }) => {
        const expected = unacceptable + gain;
        const options = { error, spending, failure: true, total, power: 0.8 };
        const { looks } = compute(
          planningGroupSequential,
          { unacceptable, expected, fractions },
          options,
        ).values;
        looks.slice(0, -1).forEach((look, at) => {
          // The allowance of the missing power is that of an error of the same size.
          const same = { ...options, error: 0.2, failure: false };
          const spent = compute(planningGroupSequential, { unacceptable, expected, fractions }, same).values
            .looks[at];
          if (spent === undefined) return;
          const allowed = spent.errorAllowed ?? 0;
          const before = looks.slice(0, at);
          const most = (look.passFrom ?? look.total + 1) - 2;
          const failAt = look.failAt ?? -1;
          if (failAt >= 0) expect(failedBy([...before, look], expected)).toBeLessThanOrEqual(allowed * JUST);
          if (failAt >= 0) stops += 1;
          if (failAt < most) {
            const stricter = { ...look, failAt: failAt + 1 };
            expect(failedBy([...before, stricter], expected)).toBeGreaterThan(allowed);
          }
        });
      }),
      { numRuns: 50, seed: 6 },
    );
    expect(stops).toBeGreaterThan(10);
  });

  it("keep the error in studies that go on where they should have stopped for failure", () => {
    const asked = { unacceptable: 0.9, expected: 0.96, fractions: [0.25, 0.5, 0.75, 1] };
    const { values } = compute(planningGroupSequential, asked, { spending: "pocock", failure: true });
    const disobeyed = values.looks.map(({ total, passFrom, failAt }, at) => ({
      total,
      passFrom,
      failAt: at === values.looks.length - 1 ? failAt : null,
    }));
    const studies = 40_000;
    const spent = values.looks[3]?.errorSpent ?? Number.NaN;
    expect(spent).toBeLessThanOrEqual(0.05);
    expect(values.error).toBeLessThan(spent);
    const drawn = byDrawing(disobeyed, 0.9, studies, 31);
    expectClose(drawn.pass, spent, { absolute: 4.5 * Math.sqrt((spent * (1 - spent)) / studies) });
  });

  it.each(["obrien_fleming", "pocock"] as const)("errs and passes as often as it says, %s", (spending) => {
    const asked = { unacceptable: 0.9, expected: 0.96, fractions: [0.5, 1] };
    const { values } = compute(planningGroupSequential, asked, { spending, failure: true });
    const studies = 30_000;
    for (const [truth, share, mean] of [
      [0.9, values.error, values.expectedTotal.unacceptable],
      [0.96, values.power, values.expectedTotal.expected],
    ] as const) {
      const drawn = byDrawing(values.looks, truth, studies, 41);
      const exact = share ?? Number.NaN;
      expectClose(drawn.pass, exact, { absolute: 4.5 * Math.sqrt((exact * (1 - exact)) / studies) });
      expectClose(drawn.mean, mean ?? Number.NaN, { absolute: 4.5 * drawn.meanError });
    }
    expect(values.error).toBeLessThanOrEqual(0.05);
    expect(values.power).toBeGreaterThanOrEqual(0.8);
  });
});

describe("the smallest final total", () => {
  it.each([
    ["obrien_fleming", true],
    ["pocock", false],
  ] as const)("is the first of all totals that reaches the power (%s)", (spending, failure) => {
    const asked = { unacceptable: 0.85, expected: 0.95, fractions: [0.4, 0.7, 1] };
    const options = { spending, failure };
    const sought = compute(planningGroupSequential, asked, options).values.total ?? 0;
    const powerOf = (total: number) =>
      compute(planningGroupSequential, asked, { ...options, total }).values.power ?? 0;
    expect(powerOf(sought)).toBeGreaterThanOrEqual(0.8);
    for (let total = 1; total < sought; total += 1) expect(powerOf(total)).toBeLessThan(0.8);
  });

  it("gives a rule that keeps error and power, and that planning.stopping_rule takes and confirms", () => {
    let planned = 0;
    const question = fc.record({
      unacceptable: fc.double({ min: 0.02, max: 0.95, noNaN: true }),
      part: fc.double({ min: 0.3, max: 1, noNaN: true }),
      fractions: fc.constantFrom<number[][]>([1], [0.5, 1], [0.2, 0.6, 1], [0.25, 0.5, 0.75, 1]),
      spending: fc.constantFrom<("obrien_fleming" | "pocock")[]>("obrien_fleming", "pocock"),
      failure: fc.boolean(),
      error: fc.constantFrom(0.001, 0.025, 0.1),
      power: fc.constantFrom(0.7, 0.9),
    });
    fc.assert(
      fc.property(question, ({ unacceptable, part, fractions, ...options }) => {
        const expected = Math.min(1, unacceptable + (1 - unacceptable) * part);
        const found = compute(planningGroupSequential, { unacceptable, expected, fractions }, options);
        expect(faultsOf(found)).toEqual([]);
        const { looks, error, power, expectedTotal } = found.values;
        if (looks.length === 0) return;
        planned += 1;
        expect(error).toBeLessThanOrEqual(options.error * JUST);
        expect(power).toBeGreaterThanOrEqual(options.power / JUST);
        const rule = looks.map(({ total, passFrom, failAt }) => ({ total, passFrom, failAt }));
        const truths = [unacceptable, expected];
        const [bad, good] = compute(planningStoppingRule, { looks: rule, truths }, { draws: 100 }).values
          .truths;
        expect([bad?.pass, good?.pass]).toEqual([error, power]);
        expect(bad?.expectedTotal).toBe(expectedTotal.unacceptable);
      }),
      { numRuns: 60, seed: 7 },
    );
    expect(planned).toBeGreaterThan(50);
  });

  it("with one look is that of a single look", () => {
    const asked = { unacceptable: 0.9, expected: 0.96, fractions: [1] };
    const { total, looks, error, power, single } = compute(planningGroupSequential, asked).values;
    expect(total).toBe(single?.total);
    expect(looks[0]?.passFrom).toBe(single?.passFrom);
    expectClose(error, single?.error ?? -1, { relative: 1e-12 });
    expectClose(power, single?.power ?? -1, { relative: 1e-12 });
  });
});

describe("questions that can't be answered", () => {
  const asked = { unacceptable: 0.9, expected: 0.96, fractions: [0.5, 1] };
  it.each([
    ["not_above", { ...asked, expected: 0.9 }, {}, "State a higher expected"],
    ["beyond_horizon", asked, { horizon: 50 }, "Raise the horizon"],
    ["nothing_passes", asked, { total: 10 }, "Plan more people"],
    [
      "looks_coincide",
      { ...asked, fractions: [0.8, 0.9, 1] },
      { total: 3 },
      "Plan fewer looks or more people",
    ],
  ])("%s", (code, input, options, words) => {
    const found = compute(planningGroupSequential, input, options);
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toMatchObject({ looks: [], error: null, power: null });
    expect(found.notes.find((note) => note.code === code && note.path === "power")?.message).toContain(words);
  });

  it("says that a total given falls short, and still gives its borders", () => {
    const found = compute(planningGroupSequential, asked, { total: 60 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.looks).toHaveLength(2);
    expect(found.values.power).toBeLessThan(0.8);
    expect(found.notes.some(({ code, path }) => code === "power_not_reached" && path === "power")).toBe(true);
  });

  it("leaves an allowance too small to reckon with unspent", () => {
    const early = { ...asked, fractions: [0.02, 1] };
    const found = compute(planningGroupSequential, early, { total: 400, error: 0.01 });
    expect(found.values.looks[0]).toMatchObject({ passFrom: null, errorSpent: 0 });
    expect(found.values.looks[0]?.errorAllowed).toBeLessThan(1e-25);
  });

  it.each([
    [[0.5, 0.4, 1], "input.fractions.1"],
    [[0.5, 0.9], "input.fractions.1"],
    [[0, 1], "input.fractions.0"],
    [[], "input.fractions"],
  ])("refuses looks at %j", (fractions, path) => {
    expect(() => compute(planningGroupSequential, { ...asked, fractions })).toThrow(InputError);
    expect(() => compute(planningGroupSequential, { ...asked, fractions })).toThrow(`${path}: `);
  });
});
