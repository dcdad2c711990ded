import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { planningStoppingRule } from "../../../src/methods/planning/stopping-rule.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { byDrawing, byEveryPath, type Rule } from "./every-path.ts";

const FEW = { draws: 100 };
const follow = (looks: readonly Rule[], truths: number[], options = FEW) =>
  compute(planningStoppingRule, { looks: [...looks], truths }, options);

/** Rules of up to 11 people, of one to four looks, with borders anywhere they may be. */
const RULE = fc
  .array(fc.record({ more: fc.integer({ min: 1, max: 4 }), low: fc.nat(99), high: fc.nat(99) }), {
    minLength: 1,
    maxLength: 4,
  })
  .map((steps): Rule[] => {
    let total = 0;
    return steps.map(({ more, low, high }, at) => {
      total = Math.min(total + more, 11 - (steps.length - 1 - at));
      const failAt = (low % (total + 2)) - 1;
      const passFrom = failAt + 1 + (high % (total - failAt + 1));
      if (at === steps.length - 1) {
        const border = Math.min(Math.max(passFrom, 1), total);
        return { total, passFrom: border, failAt: border - 1 };
      }
      return { total, passFrom: passFrom > total ? null : passFrom, failAt: failAt < 0 ? null : failAt };
    });
  })
  .filter((looks) => looks.every(({ total }, at) => at === 0 || total > (looks[at - 1]?.total ?? 0)));

describe("a stopping rule", () => {
  it("does what following every sequence of results says", () => {
    fc.assert(
      fc.property(RULE, fc.double({ min: 0, max: 1, noNaN: true }), (looks, truth) => {
        const found = follow(looks, [truth]);
        expect(faultsOf(found)).toEqual([]);
        const answer = found.values.truths[0];
        const listed = byEveryPath(looks, truth);
        const close = { relative: 1e-12, absolute: 1e-28 };
        expectClose(answer?.pass, listed.pass, close, "pass");
        expectClose(answer?.expectedTotal, listed.mean, close, "mean");
        for (const { total, probability } of answer?.stopsAt ?? []) {
          expectClose(probability, listed.ended.get(total) ?? 0, close, `stops at ${total}`);
        }
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it("agrees with its own simulation, which does not share the recursion", () => {
    const looks = [
      { total: 30, failAt: 25 },
      { total: 59, passFrom: 59, failAt: 53 },
      { total: 118, passFrom: 112, failAt: 111 },
    ];
    const draws = 100_000;
    for (const { pass, expectedTotal, simulated } of follow(looks, [0.85, 0.9, 0.96], { draws }).values
      .truths) {
      const share = pass ?? Number.NaN;
      const error = Math.sqrt((share * (1 - share)) / draws);
      expectClose(simulated.pass, share, { absolute: 4.5 * error }, "share passed");
      expectClose(simulated.expectedTotal, expectedTotal ?? Number.NaN, { absolute: 0.5 }, "people");
      expect(simulated.lower).toBeLessThanOrEqual(simulated.pass as number);
      expect(simulated.upper).toBeGreaterThanOrEqual(simulated.pass as number);
    }
  });

  it("agrees with studies drawn person by person", () => {
    const looks = [
      { total: 40, passFrom: 40, failAt: 33 },
      { total: 80, passFrom: 76, failAt: 75 },
    ];
    for (const truth of [0.88, 0.95]) {
      const answer = follow(looks, [truth]).values.truths[0];
      const drawn = byDrawing(looks, truth, 40_000, 3);
      const pass = answer?.pass ?? Number.NaN;
      expectClose(drawn.pass, pass, { absolute: 4.5 * Math.sqrt((pass * (1 - pass)) / 40_000) });
      expectClose(drawn.mean, answer?.expectedTotal ?? Number.NaN, { absolute: 4.5 * drawn.meanError });
    }
  });

  it("has its 95 % interval hold the exact value in about 95 % of seeds (by definition)", () => {
    const looks = [
      { total: 10, failAt: 6 },
      { total: 20, passFrom: 16, failAt: 15 },
    ];
    let held = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const found = compute(planningStoppingRule, { looks, truths: [0.8] }, { draws: 500, seed });
      const { pass, simulated } = found.values.truths[0] as (typeof found.values.truths)[number];
      const exact = pass ?? Number.NaN;
      if ((simulated.lower ?? 2) <= exact && exact <= (simulated.upper ?? -1)) held += 1;
    }
    // 285 of 300 expected, standard deviation 3.8; the exact interval covers a little more than it says.
    expect(held).toBeGreaterThanOrEqual(270);
    expect(held).toBeLessThan(300);
  });

  it("gives the same for the same seed, another simulation for another", () => {
    const looks = [{ total: 20, passFrom: 15, failAt: 14 }];
    const at = (seed: number) => compute(planningStoppingRule, { looks, truths: [0.7] }, { seed }).values;
    expect(at(5)).toEqual(at(5));
    expect(at(5).truths[0]?.simulated.pass).not.toBe(at(6).truths[0]?.simulated.pass);
    expect(at(5).truths[0]?.pass).toBe(at(6).truths[0]?.pass);
  });

  it("passes more often the better the kit is", () => {
    const looks = [
      { total: 50, passFrom: 50, failAt: 40 },
      { total: 150, passFrom: 141, failAt: 140 },
    ];
    const passed = follow(looks, [0, 0.5, 0.8, 0.9, 0.95, 0.99, 1]).values.truths.map(
      ({ pass }) => pass ?? -1,
    );
    expect(passed).toEqual([...passed].sort((one, other) => one - other));
    expect([passed[0], passed[6]]).toEqual([0, 1]);
  });

  const last = { total: 20, passFrom: 15, failAt: 14 };
  it.each<[string, Rule[], string]>([
    ["people that do not grow", [{ total: 20 }, last], "input.looks.1.total"],
    ["nobody at the first look", [{ total: 0 }, last], "input.looks.0.total"],
    ["more to pass than were seen", [{ total: 10, passFrom: 11 }, last], "input.looks.0.passFrom"],
    ["borders that cross", [{ total: 10, passFrom: 8, failAt: 8 }, last], "input.looks.0.failAt"],
    ["failing whatever comes", [{ total: 10, failAt: 11 }, last], "input.looks.0.failAt"],
    ["an end that leaves a gap", [{ total: 20, passFrom: 15, failAt: 13 }], "input.looks.0.failAt"],
    ["an end that never passes", [{ total: 20, failAt: 13 }], "input.looks.0.failAt"],
    ["no looks", [], "input.looks"],
  ])("refuses %s", (_, looks, path) => {
    expect(() => follow(looks, [0.5])).toThrow(InputError);
    expect(() => follow(looks, [0.5])).toThrow(`${path}: `);
  });
});
