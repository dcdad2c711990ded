import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { people, setOf, tinyInputs, tinyKit, tinyRecords } from "./tiny-study.ts";

type Criterion = Study["criteria"][number];

const criterion = (id: string, changes: Partial<Criterion> = {}): Criterion => ({
  id,
  analyte: "one",
  measure: "sensitivity",
  rule: "interval",
  importance: "primary",
  source: "made up",
  ...(changes.at_most === undefined ? { at_least: 0.9 } : {}),
  ...changes,
});

/** So many right of so many, reference-positive and -negative. */
function counted(
  sensitivity: readonly [number, number],
  specificity: readonly [number, number] = [0, 0],
): Pair[] {
  const [truePositives, positives] = sensitivity;
  const [trueNegatives, negatives] = specificity;
  return [
    ...people(truePositives, { rapid: "reactive", reference: "positive" }),
    ...people(positives - truePositives, { rapid: "nonreactive", reference: "positive" }),
    ...people(trueNegatives, { rapid: "nonreactive", reference: "negative" }),
    ...people(negatives - trueNegatives, { rapid: "reactive", reference: "negative" }),
  ];
}

const PEOPLE = counted([97, 100], [98, 100]);

function evaluated(criteria: Criterion[], study: Partial<Study> = {}, pairs: readonly Pair[] = PEOPLE) {
  return evaluate(tinyRecords([setOf(pairs)], { study: { criteria, ...study } }), tinyInputs);
}

const three = [
  criterion("se-92", { at_least: 0.92 }),
  criterion("sp-90", { measure: "specificity" }),
  criterion("se-91", { at_least: 0.91 }),
];
/** SciPy 1.10.1: binom.sf(96, 100, .92), binom.sf(97, 100, .9), binom.sf(96, 100, .91). */
const P = { se92: 0.03670589923504177, sp90: 0.001944884651880021, se91: 0.017300609121718047 };

function verdicts(decision: Study["decision"], criteria = three, pairs = PEOPLE) {
  const found = evaluated(criteria, { decision }, pairs).decision;
  return {
    of: found?.criteria.map(({ criterion: id, verdict }) => [id, verdict]),
    overall: found?.overall,
    found,
  };
}

describe("criteria of one kit and rule", () => {
  it("are judged by the kit they name", () => {
    const records = tinyRecords([setOf(PEOPLE), setOf(counted([50, 50]), { kit: "other-kit" })], {
      study: {
        criteria: [criterion("a"), criterion("b", { kit: "other-kit" }), criterion("c", { kit: "third" })],
      },
    });
    const kits = [...records.kits, { ...tinyKit, id: "other-kit" }];
    const { answers } = evaluate({ ...records, kits }, tinyInputs);
    expect(answers.map(({ kit, estimate, verdict }) => [kit, estimate.total, verdict])).toEqual([
      ["made-up-kit", 100, "met"],
      ["other-kit", 50, "met"],
      ["third", 0, "not_estimable"],
    ]);
  });

  it("are judged by both limits, by one-sided limits or by the estimate", () => {
    // SciPy 1.10.1: beta.ppf(.025, 97, 4) = .91482, beta.ppf(.05, 97, 4) = .92429; the estimate is .97.
    const by = (rule: Criterion["rule"], at_least: number) =>
      evaluated([criterion("a", { rule, at_least })]).answers[0];
    expect(by("interval", 0.914)?.verdict).toBe("met");
    expect(by("interval", 0.92)?.verdict).toBe("undecided");
    expect(by("one_sided", 0.92)?.verdict).toBe("met");
    expect(by("one_sided", 0.92)?.estimate.lower).toBeCloseTo(0.92428920625017, 10);
    expect(by("one_sided", 0.93)?.verdict).toBe("undecided");
    expect(by("point", 0.97)?.verdict).toBe("met");
    expect(by("point", 0.98)?.verdict).toBe("not_met");
    expect(by("point", 0.98)?.notes.map(({ code }) => code)).toContain("point_rule");
    expect(by("one_sided", 0.92)?.notes.map(({ code }) => code)).toContain("one_sided_rule");
  });

  it("follow their rule under the other treatments as well", () => {
    const spoilt = [...PEOPLE, ...people(2, { rapid: "invalid", reference: "positive" })];
    const [answer] = evaluated([criterion("a", { rule: "point", at_least: 0.96 })], {}, spoilt).answers;
    // 97 of 100 = .97 valid; 97 of 102 = .951 with the invalid ones counted as wrong.
    expect(answer?.verdict).toBe("met");
    expect(answer?.byInvalidTreatment.find(({ treatment }) => treatment === "failure")?.verdict).toBe(
      "not_met",
    );
  });

  it("have Clopper and Pearson's limits where Blaker's cannot be one-sided", () => {
    const interval = { method: "blaker" as const, level: 0.95 };
    const [answer] = evaluated([criterion("a", { rule: "one_sided" })], { interval }).answers;
    expect(answer?.estimate.lower).toBeCloseTo(0.92428920625017, 10);
    expect(answer?.notes.map(({ code }) => code)).toContain("clopper_pearson_instead");
  });
});

describe("criteria together", () => {
  it("carry exact p-values and the probability that all are reached", () => {
    const { found } = verdicts({ control: "all_must_pass" });
    for (const [index, pValue] of [P.se92, P.sp90, P.se91].entries()) {
      expect(found?.criteria[index]?.pValue).toBeCloseTo(pValue, 12);
      expect(found?.criteria[index]?.adjustedPValue).toBeCloseTo(pValue, 12);
    }
    // SciPy 1.10.1: beta.sf(.92, 97.5, 3.5), beta.sf(.9, 98.5, 2.5), beta.sf(.91, 97.5, 3.5).
    const [one, two, last] = [0.9788133790376851, 0.9991584148893936, 0.9905481335921591];
    expect(found?.joint.independent).toBeCloseTo(one * two * last, 10);
    expect(found?.joint.lowest).toBeCloseTo(one + two + last - 2, 10);
    expect(found?.joint.highest).toBeCloseTo(one, 10);
  });

  it("are met only if all are, where the kit needs every one", () => {
    const { of, overall } = verdicts({ control: "all_must_pass" });
    expect(of).toEqual([
      ["se-92", "undecided"],
      ["sp-90", "met"],
      ["se-91", "met"],
    ]);
    expect(overall).toBe("undecided");
    const failing = [...three, criterion("se-995", { at_least: 0.995 })];
    expect(verdicts({ control: "all_must_pass" }, failing).overall).toBe("not_met");
    expect(verdicts({ control: "each" }, failing).found?.notes.map(({ code }) => code)).toContain(
      "no_control",
    );
  });

  it("share the error by Holm where any one counts", () => {
    // By hand: 3 * p(1), 2 * p(2) = .0346 > .025, then the larger of that and p(3).
    const { of, overall, found } = verdicts({ control: "holm" });
    expect(found?.criteria.map(({ adjustedPValue }) => adjustedPValue)).toEqual([
      expect.closeTo(P.se92, 12),
      expect.closeTo(3 * P.sp90, 12),
      expect.closeTo(2 * P.se91, 12),
    ]);
    expect(of).toEqual([
      ["se-92", "undecided"],
      ["sp-90", "met"],
      ["se-91", "undecided"],
    ]);
    expect(overall).toBe("met");
  });

  it("are judged in the order stated, and none after one that is not shown", () => {
    const shown = verdicts({ control: "fixed_sequence", order: ["sp-90", "se-91", "se-92"] });
    expect(shown.of).toEqual([
      ["sp-90", "met"],
      ["se-91", "met"],
      ["se-92", "undecided"],
    ]);
    const blocked = verdicts({ control: "fixed_sequence", order: ["se-92", "sp-90"] });
    expect(blocked.of?.map(([, verdict]) => verdict)).toEqual(["undecided", "undecided", "undecided"]);
    expect(blocked.overall).toBe("undecided");
    expect(blocked.found?.notes.map(({ code }) => code)).toContain("not_in_order");
  });

  it("allow the whole one-sided error where every rule is one-sided", () => {
    const oneSided = three.map((entry) => ({ ...entry, rule: "one_sided" as const }));
    // .0346 and .0367 are below .05.
    expect(verdicts({ control: "holm" }, oneSided).of?.map(([, verdict]) => verdict)).toEqual([
      "met",
      "met",
      "met",
    ]);
    const mixed = [
      { ...three[0], rule: "one_sided" },
      three[1],
      { ...three[2], rule: "point" },
    ] as Criterion[];
    const codes = verdicts({ control: "holm" }, mixed).found?.notes.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(["mixed_rules", "point_rule"]));
  });

  it("are the primary ones alone, and nothing without any", () => {
    const secondary = criterion("x", { importance: "secondary" });
    expect(evaluated([secondary]).decision).toBeNull();
    expect(evaluated([]).decision).toBeNull();
    const { found } = verdicts({ control: "all_must_pass" }, [criterion("a"), secondary]);
    expect(found?.criteria.map(({ criterion: id }) => id)).toEqual(["a"]);
    expect(found?.joint.lowest).toBe(found?.joint.highest);
  });

  it("are those of the first reader where several are asked for", () => {
    const sets = [setOf(PEOPLE), setOf(counted([50, 100], [50, 100]), { reader: "R2" })];
    const study = {
      criteria: three,
      readers: { use: "each", primary: "R1", disagreement: "set_aside" } as const,
    };
    const { answers, decision } = evaluate(tinyRecords(sets, { study }), tinyInputs);
    expect(answers).toHaveLength(6);
    expect(decision?.criteria).toHaveLength(3);
    expect(decision?.criteria[1]?.verdict).toBe("met");
    expect(decision?.notes.map(({ code }) => code)).toContain("first_reader");
  });

  it.each(["each", "all_must_pass", "holm", "fixed_sequence"] as const)(
    "give verdicts and no number that is none under %s, whatever is asked",
    (control) => {
      const odd = [
        criterion("certain", { at_least: 0 }),
        criterion("never", { at_least: 1 }),
        criterion("rate", { measure: "invalid_rate", at_most: 1 }),
        criterion("none", { measure: "invalid_rate", at_most: 0 }),
        criterion("nobody", { measure: "specificity" }),
      ];
      const evaluation = evaluated(odd, { decision: { control, order: ["lost"] } }, counted([5, 5]));
      expect(writeEvaluation(evaluation)).not.toMatch(/NaN|Infinity/);
      expect(evaluation.decision?.criteria.find((entry) => entry.criterion === "nobody")?.verdict).toBe(
        "not_estimable",
      );
      expect(evaluation.decision?.criteria.find((entry) => entry.criterion === "certain")?.pValue).toBe(0);
      expect(evaluation.decision?.criteria.find((entry) => entry.criterion === "never")?.pValue).toBe(1);
    },
  );
});

describe("what more people would do", () => {
  const undecided = [criterion("se", { at_least: 0.85 })];

  it("is summed over all that they may bring", () => {
    const [found] = evaluated(undecided, {}, counted([46, 50])).assurance;
    expect(found).toMatchObject({ criterion: "se" });
    expect(found?.further).toBe(evaluated(undecided, {}, counted([46, 50])).answers[0]?.further);
    const sum = (outlook?: { met: number | null; notMet: number | null; undecided: number | null }) =>
      (outlook?.met ?? 0) + (outlook?.notMet ?? 0) + (outlook?.undecided ?? 0);
    expect(sum(found?.ifEstimateHolds)).toBeCloseTo(1, 10);
    expect(sum(found?.predicted)).toBeCloseTo(1, 10);
    expect(found?.needed.map(({ chance }) => chance)).toEqual([0.8, 0.9]);
  });

  it("is looked at for a hundred where no number decides", () => {
    // 45 of 50 is the threshold itself: the estimate, if it held, would never decide.
    const [found] = evaluated([criterion("se", { at_least: 0.9 })], {}, counted([45, 50])).assurance;
    expect(found?.further).toBe(100);
    expect(found?.notes.map(({ code }) => code)).toContain("never_decided");
    // SciPy 1.10.1: binom and betabinom over all results, beta.ppf for the limits.
    expect(found?.ifEstimateHolds.met).toBeCloseTo(0.001944884651880021, 10);
    expect(found?.predicted.met).toBeCloseTo(0.026667157303302172, 10);
  });

  it("is asked only of what is undecided", () => {
    expect(evaluated([criterion("met"), criterion("lost", { at_least: 0.995 })]).assurance).toEqual([]);
  });
});
