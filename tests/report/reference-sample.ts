import type { Evaluation } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords, tinyStudy } from "../evaluation/tiny-study.ts";

/** A made-up study whose reference errs, was not done in everybody, and is one test of a latent class model. */
const some = (site: "north" | "south", weight: number, rapid: Pair["rapid"], reference: Pair["reference"]) =>
  person({ site, weight, rapid, reference, strata: { site } });

const PEOPLE = [
  some("north", 120, "reactive", "positive"),
  some("north", 2, "nonreactive", "positive"),
  some("north", 9, "reactive", "negative"),
  some("north", 400, "nonreactive", "negative"),
  some("north", 150, "nonreactive", "not_done"),
  some("south", 20, "reactive", "positive"),
  some("south", 1, "nonreactive", "positive"),
  some("south", 5, "reactive", "negative"),
  some("south", 300, "nonreactive", "negative"),
  some("south", 3, "reactive", "not_done"),
  some("south", 60, "nonreactive", "not_done"),
  some("south", 4, "invalid", "negative"),
];

const criterion = (measure: "sensitivity" | "specificity", at_least: number): Study["criteria"][number] => ({
  id: `one-${measure}`,
  analyte: "one",
  measure,
  at_least,
  rule: "interval",
  importance: "primary",
  source: "made up",
});

type Priors = NonNullable<Study["latent_class"][number]["priors"]>;
const PRIORS: Priors = Object.assign({ prevalence: { alpha: 1, beta: 1 } } as Priors, {
  rapid: { sensitivity: { alpha: 19, beta: 1 }, specificity: { alpha: 49, beta: 1 } },
  lab: { sensitivity: { alpha: 38, beta: 2 }, specificity: { alpha: 99, beta: 1 } },
});

const LATENT: Study["latent_class"][number] = {
  id: "both",
  title: "kit and laboratory, neither beyond doubt",
  analyte: "one",
  tests: [
    { id: "rapid", title: "Kit by eye", reference: false },
    { id: "lab", title: "Laboratory", reference: true },
  ],
  populations: "site",
  dependence: { pairs: [["rapid", "lab"]] },
  priors: PRIORS,
  source: "made up",
};

const ANALYTES: Study["analytes"] = tinyStudy.analytes.map((analyte) => ({
  ...analyte,
  reference: {
    ...analyte.reference,
    role: "imperfect",
    errors: {
      sensitivity: { believed: 0.96, from: 0.9, to: 0.99 },
      specificity: { believed: 0.997, from: 0.99, to: 1 },
      covariance: { diseased: 0, nondiseased: 0 },
      source: "made up",
      entered_on: "2026-01-01",
    },
  },
}));

/** Readers are known, so that a test of the model can be one reader's. */
const READ = { ...tinyStudy.records, columns: { reader: "reader" } } as Study["records"];

function evaluated(study: Partial<Study>): Evaluation {
  const records = tinyRecords([setOf(PEOPLE)], {
    study: {
      analytes: ANALYTES,
      records: READ,
      criteria: [criterion("sensitivity", 0.95), criterion("specificity", 0.96)],
      strata: [{ id: "site", title: "Site", column: "site", planned: true }],
      verification: { strata: ["site"], odds_ratio: { from: 0.2, to: 5 } },
      ...study,
    },
    alarms: [{ code: "discrepant_only_retested", count: 14, total: 17, subjects: ["one"] }],
  });
  return evaluate(records, tinyInputs);
}

let whole: Evaluation | undefined;

/** Everything that the section on the reference can hold: computed once, by the program's own methods. */
export function referenceEvaluation(): Evaluation {
  whole ??= evaluated({ latent_class: [LATENT] });
  return structuredClone(whole);
}

/** The same without beliefs, errors taken as independent. */
export function likelihoodEvaluation(): Evaluation {
  const { priors: _, source: __, ...plain } = LATENT;
  return evaluated({ latent_class: [{ ...plain, dependence: "independent" }] });
}
