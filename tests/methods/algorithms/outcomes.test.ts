import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { devicesAt, recompute } from "../../../src/methods/algorithms/at-prevalences.ts";
import type { Dependence } from "../../../src/methods/algorithms/fields.ts";
import { followAlgorithm, layOut } from "../../../src/methods/algorithms/followed.ts";
import type { Retest, Step } from "../../../src/methods/algorithms/model.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const INDEPENDENT: Dependence = { kind: "independent" };
const phi = (diseased: number, nondiseased: number, first = "A", second = "B"): Dependence => ({
  kind: "pairs",
  pairs: [{ first, second, diseased, nondiseased }],
});
const named = (ids: readonly string[], sensitivity = 0.99, specificity = 0.98, invalid = 0) =>
  ids.map((id) => ({ id, sensitivity, specificity, invalid }));

function inARow(tests: number, prevalences: number[], dependence = INDEPENDENT) {
  const ids = ["A", "B", "C"].slice(0, tests);
  const steps = tests === 1 ? presetSteps("single", ids) : presetSteps("serial_confirm", ids);
  return compute(algorithmsOutcomes, { kits: named(ids), steps, retest: null, dependence, prevalences });
}

describe("kits of 99 % and 98 %, one, two and three in a row", () => {
  // R 4.2.2: p .99^k / (p .99^k + (1 - p) .02^k), in per cent, printed to two or three digits.
  it.each([
    [0.001, [4.72, 71.04, 99.18]],
    [0.005, [19.92, 92.49, 99.84]],
    [0.01, [33.33, 96.12, 99.92]],
    [0.02, [50.25, 98.04, 99.96]],
    [0.05, [72.26, 99.23, 99.98]],
    [0.2, [92.52, 99.84, 99.997]],
  ])("PPV at a prevalence of %s", (prevalence, printed) => {
    printed.forEach((ppv, at) => {
      const found = 100 * (inARow(at + 1, [prevalence]).values.at[0]?.ppv ?? Number.NaN);
      const digits = ppv === 99.997 ? 3 : 2;
      expectClose(found, ppv, { absolute: 0.5 * 10 ** -digits }, `${at + 1} tests`);
    });
  });

  it("two tests reach a PPV of 99 % at a prevalence of 3.88 %", () => {
    // p / (1 - p) = 99 x .0004 / .9801 gives p = 4/103.
    const { at } = inARow(2, [4 / 103, 0.0388, 0.0389]).values;
    expectClose(at[0]?.ppv, 0.99, { relative: 1e-14 });
    expect(at[1]?.ppv).toBeLessThan(0.99);
    expect(at[2]?.ppv).toBeGreaterThan(0.99);
  });

  // R 4.2.2: both reactive in p1 p2 + phi sqrt(p1 q1 p2 q2), then Bayes' rule, in per cent.
  it.each([
    [0.05, [97.4, 95.63, 92.29], 99.23],
    [0.01, [87.77, 80.77, 69.66], 96.12],
  ])("errors that go together, at %s", (prevalence, printed, independent) => {
    [0.05, 0.1, 0.2].forEach((correlation, at) => {
      const { values, notes } = inARow(2, [prevalence], phi(correlation, correlation));
      const percent = (ppv: number | null | undefined) => 100 * (ppv ?? Number.NaN);
      expectClose(percent(values.at[0]?.ppv), printed[at] as number, { absolute: 0.005 });
      expectClose(percent(values.independent.at[0]?.ppv), independent, { absolute: 0.005 });
      expect(notes).toEqual([]);
    });
  });
});

describe("people who return", () => {
  const kits = named(["A", "B"], 0.9, 0.95, 0.02);
  const asked = (retest: Retest, dependence: Dependence = INDEPENDENT) =>
    compute(algorithmsOutcomes, {
      kits,
      steps: presetSteps("consecutive_two", ["A", "B"]),
      retest,
      dependence,
      prevalences: [0.1],
    }).values;

  it("independent passes: once more the same chances, for those who return", () => {
    const { net: once, byTruth } = asked(null);
    const [back, open] = [0.62, byTruth.diseased.inconclusive ?? Number.NaN];
    const twice = asked({ share: back });
    const again = (once.sensitivity ?? Number.NaN) * (1 + back * open);
    expectClose(twice.net.sensitivity, again, { relative: 1e-14 });
    expectClose(twice.byTruth.diseased.lost, open * (1 - back), { relative: 1e-14 });
    expectClose(twice.byTruth.diseased.inconclusive, back * open ** 2, { relative: 1e-13 });
    expectClose(twice.secondPass.diseased, back * open, { relative: 1e-14 });
  });

  it("nobody returns: as if nobody were asked, but that they are lost", () => {
    const [never, none] = [asked(null), asked({ share: 0 })];
    expect(none.net).toEqual(never.net);
    expect(none.byTruth.diseased.lost).toBe(never.byTruth.diseased.inconclusive);
    expect(none.byTruth.diseased.runs).toEqual(never.byTruth.diseased.runs);
    expect(none.secondPass.diseased).toBe(0);
  });

  it("the paths of both passes add up to what is told of them", () => {
    const { paths, secondPass, byTruth } = asked({ share: 0.4 });
    const sum = (some: typeof paths, status?: string) =>
      some
        .filter((path) => status === undefined || path.status === status)
        .reduce((total, { nondiseased }) => total + (nondiseased ?? Number.NaN), 0);
    expectClose(sum(paths), 1, { relative: 1e-14 });
    expectClose(sum(secondPass.paths), secondPass.nondiseased ?? Number.NaN, { relative: 1e-14 });
    const positive = sum(paths, "positive") + sum(secondPass.paths, "positive");
    expectClose(byTruth.nondiseased.positive, positive, { relative: 1e-14 });
  });

  it("a statement by pairs asks for a shared effect beyond five valid runs", () => {
    const three = {
      kits: named(["A", "B", "C"]),
      steps: presetSteps("consecutive_three", ["A", "B", "C"]),
      retest: { share: 0.5 },
      dependence: phi(0.1, 0.1),
      prevalences: [0.1],
    };
    expect(() => compute(algorithmsOutcomes, three)).toThrow(
      /input\.dependence\.kind: expected "shared" .*6 valid runs, both passes together/,
    );
    const repeat = { ...three, kits: named(["A"]), steps: presetSteps("consecutive_two", ["A", "A"]) };
    expect(() =>
      compute(algorithmsOutcomes, { ...repeat, retest: null, dependence: { kind: "pairs", pairs: [] } }),
    ).toThrow(/input\.dependence\.pairs: expected a pair of its own for A/);
  });
});

describe("what can't be told, or must be said", () => {
  const always = (status: string): Step[] => [
    { id: "one", kit: "A", reactive: status, nonreactive: status, again: 0, invalid: status },
  ];
  const told = (steps: Step[], retest: Retest = null, prevalences = [0.1, 0.2]) =>
    compute(algorithmsOutcomes, {
      kits: named(["A", "B", "C"], 0.9, 0.95, 0.05),
      steps,
      retest,
      dependence: INDEPENDENT,
      prevalences,
    });
  const codes = ({ notes }: ReturnType<typeof told>) => notes.map(({ code, path }) => `${code} ${path}`);

  it("nobody positive, nobody decided: null with a note", () => {
    const negative = told(always("negative"));
    expect(negative.values.at.map(({ ppv }) => ppv)).toEqual([null, null]);
    expect(codes(negative)).toEqual(["nobody_positive at", "nobody_positive independent.at"]);
    const undecided = told(always("inconclusive"));
    expect(undecided.values.net.sensitivityDecided).toBeNull();
    expect(codes(undecided)).toContain("never_decided net.specificityDecided");
    expect(faultsOf(undecided)).toEqual([]);
  });

  it("a prevalence of 0 and perfect specificity: that point only", () => {
    const found = compute(algorithmsOutcomes, {
      kits: named(["A"], 0.9, 1),
      steps: presetSteps("single", ["A"]),
      retest: null,
      dependence: INDEPENDENT,
      prevalences: [0.5, 0, 1],
    });
    expect(found.values.at.map(({ ppv }) => ppv)).toEqual([1, null, 1]);
    expect(found.notes.map(({ path }) => path)).toContain("at.1.ppv");
    expect(faultsOf(found)).toEqual([]);
  });

  it("independence, repeats taken as independent, and positives made over a non-reactive result", () => {
    expect(codes(told(presetSteps("single", ["A"])))).toEqual([]);
    expect(codes(told(presetSteps("consecutive_two", ["A", "B"])))).toEqual(["independence_assumed net"]);
    const repeat = ["independence_assumed net", "repeat_taken_as_independent net"];
    expect(codes(told(presetSteps("consecutive_two", ["A", "A"])))).toEqual(repeat);
    expect(codes(told(presetSteps("consecutive_two", ["A", "B"]), { share: 0.5 }))).toEqual(repeat);
    expect(codes(told(presetSteps("tie_breaker", ["A", "B", "C"])))).toContain(
      "positive_despite_nonreactive paths",
    );
    const decided = presetSteps("single", ["A"], { invalid: "negative" });
    expect(codes(told(decided, { share: 0.5 }))).toEqual(["nobody_inconclusive secondPass"]);
  });

  it("more valid runs of one person than can be told for", () => {
    const chain = Array.from({ length: 13 }, (_, at): Step => {
      const next = at < 12 ? `t${at + 1}` : "positive";
      return {
        id: `t${at}`,
        kit: "A",
        reactive: next,
        nonreactive: "negative",
        again: 0,
        invalid: "negative",
      };
    });
    expect(() => told(chain)).toThrow(/input\.steps: expected at most 12 valid runs for one person/);
  });
});

describe("at other prevalences, without following the paths anew", () => {
  it("gives what the method gives", () => {
    const kits = named(["A", "B"], 0.97, 0.98, 0.03);
    const steps = presetSteps("serial_confirm", ["A", "B"], { again: 2 });
    const prevalences = [0.001, 0.03, 0.4];
    const retest = { share: 0.5 };
    const plan = layOut(kits, { steps, retest });
    const followed = followAlgorithm(plan, INDEPENDENT);
    const input = { kits, steps, retest, dependence: INDEPENDENT, prevalences, people: 1000 };
    expect(recompute(followed, prevalences, 1000)).toEqual(compute(algorithmsOutcomes, input).values.at);
  });

  it("tells how many devices one person uses: at most three at a step", () => {
    const kits = named(["A", "B"], 0.97, 0.98, 0.5);
    const steps = presetSteps("consecutive_two", ["A", "B"], { again: 2 });
    const followed = followAlgorithm(layOut(kits, { steps, retest: null }), INDEPENDENT);
    const first = devicesAt(followed, 0, 0.3);
    // A fair coin thrown until it shows a valid run, at most three times.
    expect(first.map(({ runs }) => runs)).toEqual([1, 2, 3]);
    [0.5, 0.25, 0.25].forEach((probability, at) => {
      expectClose(first[at]?.probability, probability, { relative: 1e-14 });
    });
    // Nobody comes to the second kit but those reactive with a valid first run.
    const second = devicesAt(followed, 1, 0.3);
    const comes = 0.875 * (0.3 * 0.97 + 0.7 * 0.02);
    [1 - comes, comes / 2, comes / 4, comes / 4].forEach((probability, runs) => {
      expectClose(second[runs]?.probability, probability, { relative: 1e-13 });
    });
  });
});
