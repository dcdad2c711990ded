import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { people, setOf, tinyInputs, tinyKit, tinyRecords, tinyStudy } from "./tiny-study.ts";

/** Sensitivity 90 of 100, specificity 95 of 100. */
const PEOPLE = [
  ...people(90, { rapid: "reactive", reference: "positive" }),
  ...people(10, { rapid: "nonreactive", reference: "positive" }),
  ...people(95, { rapid: "nonreactive", reference: "negative" }),
  ...people(5, { rapid: "reactive", reference: "negative" }),
];

const clinic = (reactive: number, tested: number): Study["prevalences"] => [
  { id: "clinic", title: "Clinic", values: { one: 0.1 }, observed: { one: { reactive, tested } } },
];

function evaluated(pairs: readonly Pair[], study: Partial<Study> = {}) {
  return evaluate(tinyRecords([setOf(pairs)], { study }), tinyInputs);
}

describe("true prevalence", () => {
  const sought = PEOPLE.map((pair) => ({ ...pair, selection: "enriched" as const }));

  it("of a programme comes from its own counts and this study's accuracy", () => {
    const found = evaluated(sought, { prevalences: clinic(30, 200) }).truePrevalence;
    expect(found).toHaveLength(1);
    const [entry] = found;
    expect(entry).toMatchObject({
      population: "clinic",
      title: "Clinic",
      apparent: { count: 30, total: 200 },
    });
    // By hand: (.15 + .95 - 1) / (.9 + .95 - 1); limits at the exact limits of 30/200, SciPy 1.10.1 beta.ppf.
    expect(entry?.known.value).toBeCloseTo(0.1 / 0.85, 12);
    expect(entry?.known.lower).toBeCloseTo(0.0629994394374854, 10);
    expect(entry?.known.upper).toBeCloseTo(0.18489259255123605, 10);
    // The formula of Lang and Reiczigel written again in NumPy, from memory.
    expect(entry?.estimated.value).toBeCloseTo(0.1 / 0.85, 12);
    expect(entry?.estimated.lower).toBeCloseTo(0.03706745066637952, 10);
    expect(entry?.estimated.upper).toBeCloseTo(0.19192499393509005, 10);
  });

  it("of the study itself is given where its people are a population's, and says whence", () => {
    const mixed = [
      ...PEOPLE,
      ...people(7, { rapid: "reactive", reference: "not_done" }),
      ...people(2, { rapid: "invalid", reference: "positive" }),
    ];
    const [entry] = evaluated(mixed).truePrevalence;
    expect(entry).toMatchObject({ population: "study", apparent: { count: 102, total: 207 } });
    expect(entry?.notes.map(({ code }) => code)).toContain("same_people");
    expect(evaluated(sought).truePrevalence).toEqual([]);
  });

  it("is not had from a comparator", () => {
    const analytes = tinyStudy.analytes.map((analyte) => ({
      ...analyte,
      reference: { ...analyte.reference, role: "comparator" as const },
    }));
    expect(evaluated(PEOPLE, { analytes, prevalences: clinic(30, 200) }).truePrevalence).toEqual([]);
  });

  it("of a programme is that of the main kit alone", () => {
    const records = tinyRecords([setOf(sought), setOf(sought, { kit: "other-kit" })], {
      study: { prevalences: clinic(30, 200) },
    });
    const kits = [...records.kits, { ...tinyKit, id: "other-kit" }];
    expect(evaluate({ ...records, kits }, tinyInputs).truePrevalence.map(({ kit }) => kit)).toEqual([
      "made-up-kit",
    ]);
  });

  it.each([
    ["nobody reactive", PEOPLE, clinic(0, 50)],
    ["everybody reactive", PEOPLE, clinic(50, 50)],
    ["a test that tells nothing", people(4, { rapid: "reactive", reference: "negative" }), clinic(3, 50)],
    ["no reference-negative people", people(4, { rapid: "reactive", reference: "positive" }), clinic(3, 50)],
    ["nobody tested there", PEOPLE, clinic(0, 0)],
  ])("%s: notes, no number that is none", (_, pairs, prevalences) => {
    const evaluation = evaluated(pairs, { prevalences });
    expect(writeEvaluation(evaluation)).not.toMatch(/NaN|Infinity/);
    for (const { population, notes } of evaluation.truePrevalence) {
      if (population === "clinic") expect(notes).not.toEqual([]);
    }
  });
});
