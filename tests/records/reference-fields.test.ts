import { describe, expect, it } from "vitest";
import type { RowIssue } from "../../src/records/model.ts";
import { readStudy } from "../../src/records/read-study.ts";
import { buildStudy, studyPlan, textFile } from "./build-study.ts";
import { recordsOf, SOUND_PEOPLE } from "./expect-records.ts";

type Fields = Record<string, unknown>;

const files = (study: Fields) => buildStudy({ people: SOUND_PEOPLE, study });

/** Place and expectation of every fault of the study file. */
function faults(study: Fields): [string | null, string][] {
  const read = readStudy(files(study));
  const issues: readonly RowIssue[] = read.ok ? read.records.issues : read.issues;
  return issues
    .filter(({ file, severity }) => file === "study.yaml" && severity === "error")
    .map(({ column, expected }) => [column, expected]);
}

const TOGETHER = { diseased: 0, nondiseased: 0 };
const ERRORS: Fields = {
  sensitivity: { believed: 0.95, from: 0.9, to: 0.98 },
  specificity: { believed: 0.99, from: 0.98, to: 1 },
  covariance: TOGETHER,
  source: "made up",
};

function withErrors(errors: Fields): Fields {
  const analytes = studyPlan().analytes as { reference: Fields }[];
  return {
    analytes: analytes.map((analyte, index) =>
      index === 0 ? { ...analyte, reference: { ...analyte.reference, errors } } : analyte,
    ),
  };
}

describe("what is believed of the reference", () => {
  it("is read as it stands", () => {
    const { study } = recordsOf(files(withErrors(ERRORS)));
    expect(study.analytes[0]?.reference.errors).toEqual(ERRORS);
    expect(study.analytes[1]?.reference.errors).toBeUndefined();
  });

  it.each([
    ["sensitivity", { believed: 0.95, from: 0.96, to: 0.98 }],
    ["sensitivity", { believed: 0.99, from: 0.9, to: 0.98 }],
    ["specificity", { believed: 0.5, from: 0.6, to: 0.4 }],
  ])("keeps what is believed within its range: %s %j", (name, range) => {
    expect(faults(withErrors({ ...ERRORS, [name]: range }))).toEqual([
      [`analytes.0.reference.errors.${name}`, "from not above believed, and believed not above to"],
    ]);
  });

  it("has a source and says how kit and reference err together: nothing is silently supposed", () => {
    const { covariance, source, ...rest } = ERRORS;
    const missing = faults(withErrors(rest)).map(([column]) => column);
    expect(missing).toEqual(["analytes.0.reference.errors.covariance", "analytes.0.reference.errors.source"]);
    expect([covariance, source]).not.toContain(undefined);
  });

  it("is stated by two ranges or as a reference made of two tests, not by both nor by half", () => {
    const { sensitivity, specificity, ...rest } = ERRORS;
    const either = "either sensitivity and specificity, or composite";
    const test = { title: "EIA", sensitivity: 0.9, specificity: 0.9 };
    const composite = { rule: "any_positive", tests: [test, test], covariance: TOGETHER };
    const place = "analytes.0.reference.errors";
    expect(faults(withErrors({ ...rest, composite }))).toEqual([]);
    expect(faults(withErrors({ ...ERRORS, composite }))).toEqual([[place, either]]);
    expect(faults(withErrors({ ...rest, sensitivity }))).toEqual([[place, either]]);
    expect(faults(withErrors({ ...rest, specificity, composite }))).toEqual([[place, either]]);
    expect(faults(withErrors(rest))).toEqual([[place, either]]);
  });

  it("has two component tests whose covariance both allow", () => {
    const { sensitivity: _, specificity: __, ...rest } = ERRORS;
    const tests = [
      { title: "EIA", sensitivity: 0.9, specificity: 0.8 },
      { title: "PCR", sensitivity: 0.7, specificity: 0.95 },
    ];
    const stated = (diseased: number, nondiseased: number) => {
      const composite = { rule: "both_positive", tests, covariance: { diseased, nondiseased } };
      return faults(withErrors({ ...rest, composite }));
    };
    // By hand: 0.9 and 0.7 share at least 0.6 and at most 0.7, less 0.63; 0.8 and 0.95 from 0.75 to 0.8, less 0.76.
    expect(stated(0.07, 0.04)).toEqual([]);
    expect(stated(-0.03, -0.01)).toEqual([]);
    const place = "analytes.0.reference.errors.composite.covariance";
    expect(stated(0.071, -0.011)).toEqual([
      [`${place}.diseased`, "a covariance from -0.03 to 0.07, as these two tests allow"],
      [`${place}.nondiseased`, "a covariance from -0.01 to 0.04, as these two tests allow"],
    ]);
    const one = { rule: "any_positive", tests: tests.slice(1), covariance: TOGETHER };
    expect(faults(withErrors({ ...rest, composite: one }))[0]?.[1]).toBe("two tests");
  });
});

describe("what decided who was verified", () => {
  const strata = [{ id: "site", title: "Site", table: "participants", column: "site_id", planned: true }];
  const odds_ratio = { from: 0.5, to: 2 };

  it("names strata of the file, each once, and a range round 1", () => {
    expect(faults({ strata, verification: { strata: ["site"], odds_ratio } })).toEqual([]);
    expect(faults({ verification: { odds_ratio } })).toEqual([]);
    expect(faults({ strata, verification: { strata: ["sites", "site", "site"], odds_ratio } })).toEqual([
      ["verification.strata.0", 'a stratum of this file; did you mean "site"?'],
      ["verification.strata.2", "each stratum once"],
    ]);
    expect(faults({ verification: { odds_ratio: { from: 1.5, to: 0.5 } } })).toEqual([
      ["verification.odds_ratio.from", "at most 1"],
      ["verification.odds_ratio.to", "1 or more"],
    ]);
    expect(faults({ verification: {} })).toHaveLength(1);
  });
});

const BETA = { alpha: 9, beta: 1 };
const PRIOR = { sensitivity: BETA, specificity: { mean: 0.95, percentile: 0.9, chance: 0.05 } };
const MODEL = {
  id: "m",
  title: "Two tests",
  analyte: "A1",
  tests: [
    { id: "rapid", title: "Kit X" },
    { id: "lab", title: "Laboratory", reference: true },
  ],
  dependence: "independent",
};
const withModel = (changes: Fields) => ({ latent_class: [{ ...MODEL, ...changes }] });

describe("a model in which no test is beyond doubt", () => {
  it("is read with and without priors", () => {
    const priors = { rapid: PRIOR, lab: PRIOR, prevalence: { median: 0.1, percentile: 0.05, chance: 0.1 } };
    const { study } = recordsOf(files(withModel({ priors, source: "made up" })));
    expect(study.latent_class[0]?.priors).toEqual(priors);
    expect(study.latent_class[0]?.tests.map(({ reference }) => reference)).toEqual([false, true]);
    expect(faults(withModel({ dependence: { pairs: [["rapid", "lab"]] } }))).toEqual([]);
    expect(faults({})).toEqual([]);
  });

  it("names an analyte, a stratum, a kit, a specimen type and tests that are there", () => {
    const tests = [
      { id: "rapid", title: "Kit X", kit: "kit-z" },
      { id: "finger", title: "Kit X", specimen: "finger" },
      { id: "lab", title: "Laboratory", reference: true },
    ];
    expect(faults(withModel({ analyte: "A3", populations: "site" })).map(([column]) => column)).toEqual([
      "latent_class.0.analyte",
      "latent_class.0.populations",
    ]);
    const dependence = { pairs: [["rapid", "labs"]] };
    expect(faults(withModel({ tests, dependence })).map(([column]) => column)).toEqual([
      "latent_class.0.tests.1.specimen",
      "latent_class.0.dependence.pairs.0.1",
    ]);
    expect(faults(withModel({ tests: [tests[0], tests[2]] }))[0]?.[0]).toBe("latent_class.0.tests.0.kit");
  });

  it("has tests that differ, by id and by what they are; one reference at most", () => {
    const [rapid, lab] = MODEL.tests;
    const twice = faults(withModel({ tests: [rapid, { ...rapid, id: "again" }] }));
    expect(twice).toEqual([["latent_class.0.tests.1", "a test that differs from those before it"]]);
    expect(faults(withModel({ tests: [rapid, lab, { ...lab, id: "lab2" }] }))).toEqual([
      ["latent_class.0.tests.2.reference", "one test at most that is the reference"],
    ]);
    expect(faults(withModel({ tests: [rapid, { ...lab, id: "rapid" }] }))).toEqual([
      ["latent_class.0.tests.1.id", "each name once"],
    ]);
    expect(faults(withModel({ tests: [{ ...rapid, id: "prevalence" }, lab] }))[0]?.[1]).toContain(
      "another name",
    );
    expect(faults(withModel({ tests: [rapid, { ...lab, specimen: "venous" }] }))[0]?.[1]).toContain(
      "the reference has none",
    );
    expect(faults({ latent_class: [MODEL, MODEL] })).toEqual([["latent_class.1.id", "each name once"]]);
  });

  it("lets a test stand in one pair at most, and asks for one of three kinds of dependence", () => {
    const [rapid, lab] = MODEL.tests;
    const tests = [rapid, lab, { id: "finger", title: "Finger", specimen: "fingerstick" }];
    const dependence = {
      pairs: [
        ["rapid", "lab"],
        ["rapid", "finger"],
      ],
    };
    expect(faults(withModel({ tests, dependence }))).toEqual([
      ["latent_class.0.dependence.pairs.1.0", "a test that stands in no other place of a pair"],
    ]);
    const kinds = "independent, random_effect, or pairs: a list of pairs of tests";
    expect(faults(withModel({ dependence: "none" }))).toEqual([["latent_class.0.dependence", kinds]]);
    const { dependence: _, ...silent } = MODEL;
    expect(faults({ latent_class: [silent] }).map(([column]) => column)).toEqual([
      "latent_class.0.dependence",
    ]);
  });

  it("has a prior for every test and for nothing else, each said in one way, and a source", () => {
    const prevalence = { alpha: 1, beta: 1 };
    const source = "made up";
    const stated = (priors: Fields) => faults(withModel({ priors, source }));
    expect(stated({ rapid: PRIOR, prevalence })).toEqual([
      ["latent_class.0.priors", "priors of the test lab"],
    ]);
    expect(stated({ rapid: PRIOR, lab: PRIOR, labs: PRIOR, prevalence })).toEqual([
      ["latent_class.0.priors.labs", 'a test of this model; did you mean "lab"?'],
    ]);
    expect(stated({ rapid: PRIOR, lab: PRIOR })[0]?.[0]).toBe("latent_class.0.priors.prevalence");
    const one = "either alpha and beta, or one of mean, median and mode with percentile and chance";
    for (const prior of [
      { alpha: 1 },
      { alpha: 1, beta: 1, mean: 0.5 },
      { mean: 0.9, percentile: 0.8 },
      { mean: 0.9, median: 0.9, percentile: 0.8, chance: 0.05 },
    ]) {
      expect(stated({ rapid: PRIOR, lab: PRIOR, prevalence: prior })).toEqual([
        ["latent_class.0.priors.prevalence", one],
      ]);
    }
    expect(faults(withModel({ priors: { rapid: PRIOR, lab: PRIOR, prevalence } }))).toEqual([
      ["latent_class.0", "a source beside the priors"],
    ]);
    const misspelt = { ...PRIOR, sensitivty: BETA };
    expect(stated({ rapid: misspelt, lab: PRIOR, prevalence })[0]?.[1]).toContain(
      'did you mean "sensitivity"',
    );
  });

  it("makes the sets of readers whom only it names", () => {
    const tests = [
      { id: "one", title: "First eye" },
      { id: "two", title: "Second eye", reader: "R2" },
    ];
    const people = SOUND_PEOPLE.map((person) => ({
      ...person,
      devices: (person.devices ?? []).map((device) => ({
        ...device,
        readings: ["R1", "R2"].map((reader) => ({
          ...device.readings?.[0],
          lines: ["clear", "absent", "absent"],
          reader,
        })),
      })),
    }));
    const readers = (study: Fields) => [
      ...new Set(recordsOf(buildStudy({ people, study })).sets.map((set) => set.reader)),
    ];
    expect(readers({})).toEqual(["R1"]);
    expect(readers(withModel({ tests }))).toEqual(["R1", "R2"]);
  });

  it("joins no two kits of records that are counts", () => {
    const counts = {
      shape: "counts",
      table: "counts.csv",
      columns: { true_positives: "tp", false_positives: "fp", false_negatives: "fn", true_negatives: "tn" },
    };
    const base = studyPlan();
    const plain = (base.analytes as { reference: Fields }[]).slice(0, 1).map((analyte) => {
      const { algorithm: _, ...reference } = analyte.reference;
      return { ...analyte, reference };
    });
    const study: Fields = {
      ...base,
      analytes: plain,
      specimens: (base.specimens as unknown[]).slice(0, 1),
      readers: { use: "primary", primary: "recorded" },
      records: counts,
    };
    const read = (tests: readonly Fields[]) => {
      const given = [...buildStudy({ people: [], study: { ...study, latent_class: [{ ...MODEL, tests }] } })];
      const kept = given.filter(({ name }) => name.endsWith(".yaml"));
      const found = readStudy([...kept, textFile("counts.csv", "tp,fp,fn,tn\n8,1,1,9\n")]);
      return (found.ok ? found.records.issues : found.issues).map(({ column }) => column);
    };
    expect(read(MODEL.tests)).toEqual([]);
    expect(read([...MODEL.tests, { id: "b", title: "Another", reader: "recorded" }])).toContain(
      "latent_class.0.tests",
    );
  });
});
