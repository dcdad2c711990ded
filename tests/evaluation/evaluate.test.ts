import { describe, expect, it } from "vitest";
import { SOFTWARE_VERSION } from "../../src/core/version.ts";
import { digestOfFiles } from "../../src/evaluation/digest.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import { catalogue } from "../../src/methods/index.ts";
import type { Study } from "../../src/records/study.ts";
import { people, person, setOf, tinyInputs, tinyRecords, tinyStudy, twentyPeople } from "./tiny-study.ts";

const evaluated = (...given: Parameters<typeof tinyRecords>) => evaluate(tinyRecords(...given), tinyInputs);

/** Clopper-Pearson limits: R 4.2.2, binom.test. Wilson limits: R 4.2.2, closed form with qnorm. */
const EIGHT_OF_NINE = {
  count: 8,
  total: 9,
  value: 8 / 9,
  lower: 0.517503485082663,
  upper: 0.9971908632534008,
};

function close(found: unknown, expected: Readonly<Record<string, number>>) {
  for (const [key, value] of Object.entries(expected)) {
    expect((found as Record<string, number>)[key], key).toBeCloseTo(value, 10);
  }
}

describe("the primary analysis", () => {
  it("counts twenty people as they are counted by hand", () => {
    const [accuracy] = evaluated().accuracy;
    expect(accuracy?.counts).toEqual({
      truePositives: 8,
      falsePositives: 1,
      falseNegatives: 1,
      trueNegatives: 8,
    });
    close(accuracy?.sensitivity, EIGHT_OF_NINE);
    close(accuracy?.specificity, EIGHT_OF_NINE);
    close(accuracy?.wilson.sensitivity, { lower: 0.5650002944233441, upper: 0.980109112361455 });
    expect(accuracy?.positiveLikelihoodRatio.value).toBeCloseTo(8, 12);
    expect(accuracy?.negativeLikelihoodRatio.value).toBeCloseTo(1 / 8, 12);
    expect(accuracy?.diagnosticOddsRatio.value).toBeCloseTo(64, 10);
    expect(accuracy?.youden.value).toBeCloseTo(7 / 9, 12);
    expect(accuracy?.overallAccuracy).toMatchObject({ count: 16, total: 18 });
  });

  it("keeps the raw cross-tabulation, indeterminate and invalid people in it", () => {
    const [accuracy] = evaluated().accuracy;
    expect(accuracy?.crossTabulation).toEqual({
      reactive: { positive: 8, negative: 1, indeterminate: 1, not_done: 0 },
      nonreactive: { positive: 1, negative: 8, indeterminate: 0, not_done: 0 },
      invalid: { positive: 1, negative: 0, indeterminate: 0, not_done: 0 },
      not_done: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
    });
  });

  it("takes an invalid result for wrong where the study file says failure", () => {
    const treatment = { ...tinyStudy.treatment, invalid: "failure" as const };
    const [accuracy] = evaluated(undefined, { study: { treatment } }).accuracy;
    expect(accuracy?.sensitivity).toMatchObject({ count: 8, total: 10 });
    close(accuracy?.sensitivity, { lower: 0.443904537692359, upper: 0.974789273673167 });
  });

  it("turns the two measures into each other when positive and negative change names", () => {
    const swapped = twentyPeople().map((one) => ({
      ...one,
      rapid: swap(one.rapid, "reactive", "nonreactive"),
      firstRapid: swap(one.firstRapid, "reactive", "nonreactive"),
      reference: swap(one.reference, "positive", "negative"),
    }));
    const [was] = evaluated([
      setOf([...twentyPeople(), person({ rapid: "nonreactive", reference: "positive" })]),
    ]).accuracy;
    const [is] = evaluated([
      setOf([...swapped, person({ rapid: "reactive", reference: "negative" })]),
    ]).accuracy;
    expect(is?.sensitivity).toEqual(was?.specificity);
    expect(is?.specificity).toEqual(was?.sensitivity);
  });

  it("counts people with weights, and one heavy row as many light ones", () => {
    const heavy = setOf([
      person({ rapid: "reactive", reference: "positive", weight: 8 }),
      person({ rapid: "nonreactive", reference: "positive", weight: 1 }),
      person({ rapid: "reactive", reference: "negative", weight: 1 }),
      person({ rapid: "nonreactive", reference: "negative", weight: 8 }),
    ]);
    const [accuracy] = evaluated([heavy]).accuracy;
    const [light] = evaluated().accuracy;
    expect(accuracy?.counts).toEqual(light?.counts);
    expect(accuracy?.sensitivity).toEqual(light?.sensitivity);
  });
});

function swap<Name extends string>(name: Name, one: Name, other: Name): Name {
  return name === one ? other : name === other ? one : name;
}

describe("the study's own predictive values", () => {
  it("are given where all people came consecutively", () => {
    const [accuracy] = evaluated().accuracy;
    expect(accuracy?.refused).toBeNull();
    close(accuracy?.ownPredictiveValues?.ppv, EIGHT_OF_NINE);
    expect(accuracy?.referencePrevalence).toMatchObject({ count: 9, total: 18, value: 0.5 });
  });

  it("are refused as soon as one person was sought, and the prevalence keeps only its counts", () => {
    const pairs = [
      ...twentyPeople(),
      person({ rapid: "reactive", reference: "positive", selection: "known_positive" }),
    ];
    const [accuracy] = evaluated([setOf(pairs)]).accuracy;
    expect(accuracy?.refused).toBe("enriched_sample");
    expect(accuracy?.ownPredictiveValues).toBeNull();
    expect(accuracy?.referencePrevalence).toEqual({
      count: 10,
      total: 19,
      value: null,
      lower: null,
      upper: null,
    });
    expect(accuracy?.sensitivity).toMatchObject({ count: 9, total: 10 });
    expect(accuracy?.notes.map(({ code, path }) => `${code} ${path}`)).toEqual(
      expect.arrayContaining(["enriched_sample referencePrevalence", "enriched_sample apparentPrevalence"]),
    );
  });

  it("are refused against a comparator, and so is everything built on them", () => {
    const evaluation = evaluated(undefined, { study: { analytes: withRole("comparator") } });
    expect(evaluation.accuracy[0]?.refused).toBe("comparator_not_reference");
    expect(evaluation.accuracy[0]?.referencePrevalence.value).toBeNull();
    expect(evaluation.predictive[0]).toMatchObject({ programmes: [], curve: [], lowestPrevalence: [] });
    expect(evaluation.predictive[0]?.notes[0]?.code).toBe("comparator_not_reference");
  });

  it("are refused without any data, which is not an error", () => {
    const evaluation = evaluated([setOf([])]);
    expect(evaluation.accuracy[0]?.refused).toBe("no_data");
    expect(evaluation.accuracy[0]?.sensitivity.value).toBeNull();
    expect(evaluation.accuracy[0]?.notes.map((entry) => entry.code)).toContain("no_positives");
  });
});

function withRole(role: Study["analytes"][number]["reference"]["role"]): Study["analytes"] {
  return tinyStudy.analytes.map((analyte) => ({ ...analyte, reference: { ...analyte.reference, role } }));
}

describe("the cells", () => {
  const all = [
    setOf(people(3, { rapid: "reactive", reference: "positive" }), { reader: "R2" }),
    setOf(people(2, { rapid: "reactive", reference: "positive" }), { reader: "consensus" }),
    setOf(twentyPeople(), { specimen: "plasma" }),
    setOf(twentyPeople()),
  ];
  const specimens = [
    { type: "serum", title: "Serum" },
    { type: "plasma", title: "Plasma" },
  ];
  const names = (readers: Study["readers"]) =>
    evaluated(all, { study: { specimens, readers } }).accuracy.map(
      (accuracy) => `${accuracy.specimen} ${accuracy.reader}`,
    );

  it("are the primary reader's, the primary specimen first", () => {
    expect(names({ use: "primary", primary: "R1", disagreement: "set_aside" })).toEqual([
      "serum R1",
      "plasma R1",
    ]);
  });

  it("are those of every reader where the study asks for each", () => {
    const each = names({ use: "each", primary: "R1", disagreement: "set_aside" });
    expect(each).toEqual(["serum R1", "serum R2", "plasma R1"]);
  });

  it("are the consensus alone where the study asks for it", () => {
    expect(names({ use: "consensus", disagreement: "set_aside" })).toEqual(["serum consensus"]);
  });
});

describe("the document as a whole", () => {
  it("is the same bytes twice, whatever was evaluated in between", () => {
    const records = tinyRecords();
    const first = writeEvaluation(evaluate(records, tinyInputs));
    evaluated([setOf([])]);
    expect(writeEvaluation(evaluate(records, tinyInputs))).toBe(first);
  });

  it("says what went in and what was used", () => {
    const { provenance, software } = evaluated();
    expect(software).toBe(SOFTWARE_VERSION);
    expect(provenance.inputs).toEqual(tinyInputs);
    expect(provenance.planSha256).toBe(digestOfFiles(tinyInputs.slice(0, 2)));
    expect(provenance.dataSha256).toBe(digestOfFiles(tinyInputs.slice(2)));
    const versions = new Map(catalogue.map((method) => [method.id, method.version]));
    expect(provenance.methods.map((method) => method.id)).toEqual([
      "accuracy.fourfold",
      "predictive.lowest_prevalence",
      "predictive.over_prevalences",
      "prevalence.true",
      "proportion.interval",
    ]);
    for (const { id, version } of provenance.methods) expect(version).toBe(versions.get(id));
  });

  it("holds no path of a machine and no time of day", () => {
    expect(writeEvaluation(evaluated())).not.toMatch(/\/home|\/tmp|\/work|T\d\d:\d\d:/);
  });

  it("keeps alarms, queries and ledger as the records have them", () => {
    const issue = (row: number) => ({
      rule: "unknown_code",
      severity: "error" as const,
      file: "results.csv",
      row,
      column: "rapid",
      expected: "one of 0, 1",
      received: '"x"',
      consequence: "row_set_aside" as const,
    });
    const evaluation = evaluated(undefined, {
      issues: Array.from({ length: 7 }, (_, index) => issue(index + 2)),
      ledger: [
        {
          file: "results.csv",
          rows: 27,
          analysed: 20,
          setAside: [{ reason: "unknown_code", rows: [2, 3, 4, 5, 6, 7, 8] }],
        },
      ],
      alarms: [{ code: "rows_set_aside", count: 7, total: 27, subjects: ["results.csv"] }],
    });
    expect(evaluation.queries.total).toBe(7);
    expect(evaluation.queries.groups).toHaveLength(1);
    expect(evaluation.queries.groups[0]).toMatchObject({ rule: "unknown_code", count: 7 });
    expect(evaluation.queries.groups[0]?.examples.map((example) => example.row)).toEqual([2, 3, 4, 5, 6]);
    expect(evaluation.queries.ledger[0]?.setAside).toEqual([{ reason: "unknown_code", rows: 7 }]);
    expect(evaluation.alarms[0]?.code).toBe("rows_set_aside");
  });
});
