import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { verifiedPeople } from "../../src/evaluation/verified-people.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

type Rapid = Pair["rapid"];
type Reference = Pair["reference"];

const some = (weight: number, rapid: Rapid, reference: Reference, changes: Partial<Pair> = {}) =>
  person({ weight, rapid, reference, ...changes });

/** All 50 reactive people were verified, and 100 of the 400 others. */
const partly = [
  some(40, "reactive", "positive"),
  some(10, "reactive", "negative"),
  some(2, "nonreactive", "positive"),
  some(98, "nonreactive", "negative"),
  some(300, "nonreactive", "not_done"),
];

const criterion = (changes: Partial<Study["criteria"][number]>): Study["criteria"][number] => ({
  id: "c",
  analyte: "one",
  measure: "sensitivity",
  rule: "interval",
  importance: "primary",
  source: "made up",
  ...changes,
});

const evaluated = (pairs: readonly Pair[], study: Partial<Study> = {}) =>
  evaluate(tinyRecords([setOf(pairs)], { study }), tinyInputs);

describe("people of whom some were not verified", () => {
  it("get the corrections that can be done by hand", () => {
    const [found] = evaluated(partly).verification;
    expect(found?.counted).toEqual({
      reactive: { diseased: 40, nondiseased: 10, unverified: 0 },
      nonreactive: { diseased: 2, nondiseased: 98, unverified: 300 },
    });
    // Of the 300, 2 in 100 are expected to be diseased: 6, and 294 not.
    expect(found?.corrected.sensitivity.value).toBeCloseTo(40 / 48, 12);
    expect(found?.corrected.specificity.value).toBeCloseTo(392 / 402, 12);
    expect(found?.corrected.prevalence.value).toBeCloseTo(48 / 450, 12);
    expect(found?.corrected.npv.value).toBeCloseTo(0.98, 12);
    expect(found?.weighted.sensitivity.value).toBeCloseTo(40 / 48, 12);
    expect(found?.imputed.sensitivity.value).toBeCloseTo(40 / 48, 1);
    expect([found?.naive.sensitivity.count, found?.naive.sensitivity.total]).toEqual([40, 42]);
    expect(found?.bounds.sensitivity.lowest).toMatchObject({ count: 40, total: 342 });
    expect(found?.bounds.sensitivity.highest).toMatchObject({ count: 40, total: 42 });
    expect(found?.bounds.specificity.lowest).toMatchObject({ count: 98, total: 108 });
    expect(found?.bounds.specificity.highest).toMatchObject({ count: 398, total: 408 });
    expect(found?.shareUnverified.nonreactive).toMatchObject({ count: 300, total: 400, value: 0.75 });
    expect(found?.shareUnverified.reactive).toMatchObject({ count: 0, total: 50, value: 0 });
  });

  it("are corrected within the strata that the study file names", () => {
    const of = (site: string) => ({ strata: { site } });
    const pairs = [
      some(40, "reactive", "positive", of("north")),
      some(1, "nonreactive", "positive", of("north")),
      some(9, "nonreactive", "negative", of("north")),
      some(90, "nonreactive", "not_done", of("north")),
      some(20, "reactive", "positive", of("south")),
      some(1, "nonreactive", "positive", of("south")),
      some(99, "nonreactive", "negative", of("south")),
      some(100, "nonreactive", "not_done", of("south")),
      some(5, "reactive", "negative"),
    ];
    const strata = [{ id: "site", title: "Site", column: "site", planned: true }];
    const verification = { strata: ["site"], odds_ratio: { from: 0.5, to: 2 } };
    const [found] = evaluated(pairs, { strata, verification }).verification;
    expect(found?.strata.map(({ label }) => label)).toEqual(["north", "not recorded", "south"]);
    expect(found?.strataNamed).toEqual(["Site"]);
    expect(found?.oddsRatio).toEqual({ from: 0.5, to: 2, stated: true });
    // North: 1 in 10 of 90, so 9 more; south: 1 in 100 of 100, so 1 more.
    expect(found?.corrected.sensitivity.value).toBeCloseTo(60 / (60 + 2 + 9 + 1), 12);
    expect(found?.notes.map(({ code }) => code)).not.toContain("verification_not_stated");
    expect(evaluated(pairs).verification[0]?.notes.map(({ code }) => code)).toContain(
      "verification_not_stated",
    );
  });

  it("can't be corrected where nobody of a stratum and result was verified: the bounds remain", () => {
    const pairs = [some(20, "reactive", "positive"), some(80, "nonreactive", "not_done")];
    const criteria = [criterion({ at_least: 0.1 })];
    const [found] = evaluated(pairs, { criteria }).verification;
    expect(found?.corrected.sensitivity.value).toBeNull();
    expect(found?.bounds.sensitivity.lowest).toMatchObject({ count: 20, total: 100 });
    expect(found?.notes.map(({ code }) => code)).toContain("nobody_verified");
    // R 4.2.2: binom.test(20, 100)$conf.int begins at 0.1266556
    expect(found?.criteria[0]).toMatchObject({
      corrected: "not_estimable",
      lowest: "met",
      verdictHolds: null,
    });
  });

  it("have limits from draws where nobody missed was among the verified", () => {
    const pairs = [
      some(40, "reactive", "positive"),
      some(10, "reactive", "negative"),
      some(100, "nonreactive", "negative"),
      some(300, "nonreactive", "not_done"),
    ];
    const criteria = [criterion({ at_least: 0.5 })];
    const [found] = evaluated(pairs, { criteria }).verification;
    expect(found?.corrected.sensitivity.value).toBe(1);
    expect(found?.corrected.sensitivity.lower ?? 0).toBeGreaterThan(0.7);
    expect(found?.criteria[0]?.corrected).toBe("met");
    expect(found?.notes.map(({ code }) => code)).toContain("limits_from_draws");
  });

  it("are not there where everybody was, or only people without a result were not", () => {
    const everybody = [some(9, "reactive", "positive"), some(9, "nonreactive", "negative")];
    expect(evaluated(everybody).verification).toEqual([]);
    const pairs = [...everybody, some(3, "not_done", "not_done"), some(2, "invalid", "not_done")];
    expect(evaluated(pairs).verification).toEqual([]);
  });
});

describe("a verdict and the people not verified", () => {
  const criteria = [
    criterion({ id: "se", at_least: 0.8 }),
    criterion({ id: "sp", measure: "specificity", at_least: 0.85 }),
  ];
  const document = evaluated(partly, { criteria });
  const [found] = document.verification;
  const [se, sp] = found?.criteria ?? [];

  it("is naive, corrected and in the extreme cases what the limits say", () => {
    expect(se?.naive).toBe(document.answers[0]?.verdict);
    const verdict = (lower: number | null, upper: number | null, threshold: number) => {
      if (lower === null || upper === null) return "not_estimable";
      if (lower >= threshold) return "met";
      return upper < threshold ? "not_met" : "undecided";
    };
    const { sensitivity, specificity } = found?.corrected ?? {};
    expect(se?.corrected).toBe(verdict(sensitivity?.lower ?? null, sensitivity?.upper ?? null, 0.8));
    expect(sp?.corrected).toBe(verdict(specificity?.lower ?? null, specificity?.upper ?? null, 0.85));
    const worst = found?.bounds.sensitivity.lowest;
    expect(se?.lowest).toBe(verdict(worst?.lower ?? null, worst?.upper ?? null, 0.8));
    expect([se?.naive, se?.lowest]).toEqual(["met", "not_met"]);
  });

  it("is followed along the odds ratios that are looked at, and warned of where it changes", () => {
    expect(found?.oddsRatio).toEqual({ from: 0.25, to: 4, stated: false });
    const at = (ratio: number) => se?.axes.nonreactive.points.find(({ oddsRatio }) => oddsRatio === ratio);
    // By hand: an odds ratio of 4 makes 2 in 98 into 0.5 in 98, of 300; one of a quarter into 8 in 98.
    expect(at(4)?.estimate.value).toBeCloseTo(40 / (42 + 300 * (0.5 / 98.5)), 12);
    expect(at(0.25)?.estimate.value).toBeCloseTo(40 / (42 + 300 * (8 / 106)), 12);
    const code = "partial_verification_changes_verdict";
    expect(document.referenceWarnings).toMatchObject([
      { code, subject: "se", facts: { naive: "met", corrected: "undecided", from: 0.25, to: 4 } },
      { code, subject: "sp", facts: { naive: "undecided", corrected: "met", from: 0.25, to: 4 } },
    ]);
  });
});

const anyPair = fc.record({
  rapid: fc.constantFrom<Rapid>("reactive", "nonreactive", "invalid", "not_done"),
  reference: fc.constantFrom<Reference>("positive", "negative", "indeterminate", "not_done"),
  window: fc.constantFrom<Pair["window"]>("early", "in", "late", "unknown"),
  weight: fc.integer({ min: 1, max: 9 }),
  site: fc.constantFrom("north", "south", null),
});
const anyTreatment = fc.record({
  invalid: fc.constantFrom<Study["treatment"]["invalid"]>("set_aside", "failure", "reactive", "nonreactive"),
  outside_window: fc.constantFrom<Study["treatment"]["outside_window"]>("keep", "set_aside", "invalid"),
  repeat: fc.constant("last" as const),
});

describe("whoever was verified", () => {
  const anyPeople = fc
    .array(anyPair, { minLength: 1, maxLength: 30 })
    .map((list) => list.map(({ site, ...rest }) => person({ ...rest, strata: { site } })));

  it("everybody ends in one place, and the verified are those of the fourfold table", () => {
    fc.assert(
      fc.property(anyPeople, anyTreatment, (pairs, treatment) => {
        const set = setOf(pairs);
        const rules = { invalid: treatment.invalid, outsideWindow: treatment.outside_window };
        const { people, groups, setAside } = verifiedPeople(set, rules, ["site"]);
        const of = (state: "diseased" | "nondiseased" | "unverified", result: "reactive" | "nonreactive") =>
          groups.reduce((sum, group) => sum + group[result][state], 0);
        const states = ["diseased", "nondiseased", "unverified"] as const;
        const counted = states.flatMap((state) => [of(state, "reactive"), of(state, "nonreactive")]);
        const aside = setAside.reduce((sum, entry) => sum + entry.people, 0);
        const all = pairs.reduce((sum, pair) => sum + pair.weight, 0);
        expect(people).toBe(all);
        expect(counted.reduce((sum, one) => sum + one, aside)).toBe(all);
        const { counts } = evaluated(pairs, { treatment }).accuracy[0] ?? {};
        expect({
          truePositives: of("diseased", "reactive"),
          falsePositives: of("nondiseased", "reactive"),
          falseNegatives: of("diseased", "nonreactive"),
          trueNegatives: of("nondiseased", "nonreactive"),
        }).toEqual(counts);
      }),
      { numRuns: 25 },
    );
  });

  it("the document can be written, whatever is asked, and does not depend on the order of rows", () => {
    const strata = [{ id: "site", title: "Site", column: "site", planned: false }];
    const verification = { strata: ["site"], odds_ratio: { from: 0.2, to: 6 } };
    const rules = ["interval", "one_sided", "point"] as const;
    const criteria = rules.flatMap((rule) => [
      criterion({ id: `${rule}-1`, rule, at_least: 1 }),
      criterion({ id: `${rule}-2`, rule, measure: "specificity", at_most: 0.4 }),
    ]);
    fc.assert(
      fc.property(anyPeople, anyTreatment, (pairs, treatment) => {
        const study = { strata, verification, criteria, treatment };
        expect(writeEvaluation(evaluated([...pairs].reverse(), study))).toBe(
          writeEvaluation(evaluated(pairs, study)),
        );
      }),
      { numRuns: 12 },
    );
  });
});
