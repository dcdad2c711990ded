import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

/** Any people whatever: nobody, only positives, only invalid results, light and heavy rows. */
const anyPair = fc
  .record({
    rapid: fc.constantFrom("reactive", "nonreactive", "invalid", "not_done" as const),
    firstRapid: fc.constantFrom("reactive", "nonreactive", "invalid" as const),
    reference: fc.constantFrom("positive", "negative", "indeterminate", "not_done" as const),
    window: fc.constantFrom("early", "in", "late", "unknown" as const),
    minutes: fc.option(fc.double({ min: 0, max: 1440, noNaN: true })),
    site: fc.option(fc.constantFrom("north", "south")),
    selection: fc.constantFrom("consecutive", "random", "enriched", "known_positive" as const),
    lot: fc.option(fc.constantFrom("A", "B", "=C")),
    weight: fc.integer({ min: 1, max: 40 }),
  })
  .map(({ lot, ...rest }): Pair => {
    const firstRapid = rest.rapid === "not_done" ? ("not_done" as const) : rest.firstRapid;
    return person({ ...rest, firstRapid, strata: { lot } });
  });
const anyPairs = fc.array(anyPair, { maxLength: 25 });

const anyTreatment: fc.Arbitrary<Study["treatment"]> = fc.record({
  invalid: fc.constantFrom("set_aside", "failure", "reactive", "nonreactive" as const),
  outside_window: fc.constantFrom("keep", "set_aside", "invalid" as const),
  repeat: fc.constant("last" as const),
});

const study = (treatment: Study["treatment"]): Partial<Study> => ({
  treatment,
  criteria: [
    {
      id: "se",
      analyte: "one",
      measure: "sensitivity",
      at_least: 0.9,
      rule: "interval",
      importance: "primary",
      source: "made up",
    },
    {
      id: "inv",
      analyte: "one",
      measure: "invalid_rate",
      at_most: 0.1,
      rule: "one_sided",
      importance: "primary",
      source: "made up",
    },
  ],
  prevalences: [
    { id: "p", title: "P", values: { one: 0.02 }, observed: { one: { reactive: 3, tested: 90 } } },
  ],
  cluster: "lot",
  decision: { control: "holm" },
  comparisons: [
    {
      id: "itself",
      title: "A kit with itself",
      analyte: "one",
      first: { reader: "R1" },
      second: { reader: "R1" },
      margin: 0.1,
      kind: "equivalence",
      source: "made up",
    },
  ],
  strata: [{ id: "lot", title: "Lot", column: "lot", planned: false, ordered: ["A", "B"] }],
});

const evaluated = (pairs: readonly Pair[], treatment: Study["treatment"]) =>
  evaluate(tinyRecords([setOf(pairs)], { study: study(treatment) }), tinyInputs);

const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);

describe("whatever the people", () => {
  it("the document fits its schema, and every number in it is finite", () => {
    fc.assert(
      fc.property(anyPairs, anyTreatment, (pairs, treatment) => {
        // JSON turns NaN and infinities into null in silence; writeEvaluation refuses them before that.
        const text = writeEvaluation(evaluated(pairs, treatment));
        expect(text).not.toMatch(/NaN|Infinity/);
      }),
      { numRuns: 40 },
    );
  });

  it("everybody enrolled ends in one place", () => {
    fc.assert(
      fc.property(anyPairs, anyTreatment, (pairs, treatment) => {
        const evaluation = evaluated(pairs, treatment);
        const all = sum(pairs.map((pair) => pair.weight));
        const [flow] = evaluation.flows;
        expect(flow?.eligible).toBe(all);
        expect(sum(flow?.setAside.map((entry) => entry.people) ?? []) + (flow?.analysed ?? 0)).toBe(all);
        expect(sum(flow?.branches.map((branch) => branch.people) ?? []) + (flow?.rapidNotDone ?? 0)).toBe(
          all,
        );
        expect(sum(Object.values(evaluation.accuracy[0]?.counts ?? {}))).toBe(flow?.analysed);
      }),
      { numRuns: 40 },
    );
  });

  it("the groups of a stratum add up to all people of the two measures", () => {
    fc.assert(
      fc.property(anyPairs, anyTreatment, (pairs, treatment) => {
        const evaluation = evaluated(pairs, treatment);
        const [subgroup] = evaluation.subgroups;
        if (subgroup === undefined) return;
        for (const measure of ["sensitivity", "specificity"] as const) {
          const whole = evaluation.accuracy[0]?.[measure];
          expect(sum(subgroup.groups.map((group) => group[measure].total))).toBe(whole?.total);
          expect(sum(subgroup.groups.map((group) => group[measure].count))).toBe(whole?.count);
        }
      }),
      { numRuns: 40 },
    );
  });

  it("the order of the rows changes nothing", () => {
    fc.assert(
      fc.property(anyPairs, anyTreatment, (pairs, treatment) => {
        const forwards = writeEvaluation(evaluated(pairs, treatment));
        const backwards = writeEvaluation(evaluated([...pairs].reverse(), treatment));
        expect(backwards).toBe(forwards);
      }),
      { numRuns: 40 },
    );
  });

  it("a primary treatment and the same one among the alternatives agree", () => {
    fc.assert(
      fc.property(anyPairs, anyTreatment, (pairs, treatment) => {
        const evaluation = evaluated(pairs, treatment);
        const [accuracy] = evaluation.accuracy;
        const invalid = evaluation.invalid[0]?.treatments.find(
          (entry) => entry.treatment === treatment.invalid,
        );
        expect(invalid?.sensitivity).toEqual(accuracy?.sensitivity);
        const time = evaluation.readingTime[0]?.treatments.find(
          (entry) => entry.treatment === treatment.outside_window,
        );
        if (time !== undefined) expect(time.specificity).toEqual(accuracy?.specificity);
      }),
      { numRuns: 40 },
    );
  });
});
