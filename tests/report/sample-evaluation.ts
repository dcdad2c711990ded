import * as v from "valibot";
import { type Evaluation, EvaluationSchema } from "../../src/evaluation/document.ts";
import type { Study } from "../../src/records/study.ts";
import { accuracyOf, flowOf, invalidOf, jointOf } from "./sample/analysis.ts";
import { answersOf } from "./sample/answers.ts";
import { type CellCounts, sampleCells } from "./sample/cells.ts";
import { clusteredOf, kitComparison, sampleComparisons, truePrevalenceOf } from "./sample/comparing.ts";
import { assuranceOf, decisionOf } from "./sample/deciding.ts";
import { sampleAgreement, sampleManyReaders, sampleRereadings } from "./sample/readers.ts";
import { sampleAlarms, sampleInterpretations, sampleParticipants, sampleQueries } from "./sample/records.ts";
import { predictiveOf, readingTimeOf, subgroupsOf } from "./sample/strata.ts";
import { sampleKit, sampleStudy, secondKit } from "./sample/study.ts";

const hash = (letters: string) => letters.repeat(64).slice(0, 64);

const VENOUS_TABLE = [
  [17, 0, 0, 0],
  [1, 92, 0, 1],
  [1, 0, 119, 1],
  [0, 7, 9, 1400],
];

/** A whole evaluation with invented numbers that agree with one another, valid by the schema. */
export function sampleEvaluation(
  study: Study = sampleStudy,
  cells: readonly CellCounts[] = sampleCells,
): Evaluation {
  const venous = cells.filter(({ specimen }) => specimen === "venous");
  const answers = answersOf(study, cells);
  const known = <Item extends { analyte: string }>(items: readonly Item[]) =>
    items.filter(({ analyte }) => study.analytes.some(({ id }) => id === analyte));
  return v.parse(EvaluationSchema, {
    format: "fourfold-evaluation",
    version: 1,
    software: "0.1.0",
    provenance: {
      inputs: [
        { name: "study.yaml", bytes: 5120, sha256: hash("77b0"), rows: null },
        { name: "kit.yaml", bytes: 1033, sha256: hash("e4d1"), rows: null },
        { name: "participants.csv", bytes: 141200, sha256: hash("a3f9c21"), rows: 1787 },
        { name: "index_tests.csv", bytes: 412900, sha256: hash("0b5e"), rows: 3502 },
        { name: "reference_tests.csv", bytes: 390411, sha256: hash("9cc3"), rows: 3894 },
      ],
      planSha256: hash("77b0e4d"),
      dataSha256: hash("a3f9c21"),
      methods: [
        { id: "proportion.interval", version: 1 },
        { id: "accuracy.fourfold", version: 1 },
        { id: "predictive.at-prevalence", version: 1 },
      ],
    },
    study,
    kits: [sampleKit],
    answers,
    alarms: sampleAlarms,
    participants: sampleParticipants,
    flows: cells.map(flowOf),
    queries: sampleQueries,
    accuracy: cells.map(accuracyOf),
    joint: study.analytes.length > 1 ? [jointOf("venous", VENOUS_TABLE)] : [],
    invalid: cells.map(invalidOf),
    subgroups: venous.flatMap(subgroupsOf),
    predictive: venous.map(predictiveOf),
    readingTime: venous.map(readingTimeOf),
    interpretations: known(sampleInterpretations),
    rereadings: known(sampleRereadings),
    agreement: known(sampleAgreement),
    manyReaders: known(sampleManyReaders),
    comparisons: structuredClone(known(sampleComparisons)),
    clustered: venous.flatMap(clusteredOf),
    decision: decisionOf(answers, study.decision.control),
    assurance: assuranceOf(answers),
    truePrevalence: venous.flatMap(truePrevalenceOf),
    notes: [],
  });
}

/** The comparison method of the analytes named is no reference standard. */
export function comparatorEvaluation(analytes: readonly string[]): Evaluation {
  const evaluation = structuredClone(sampleEvaluation());
  for (const analyte of evaluation.study.analytes) {
    if (!analytes.includes(analyte.id)) continue;
    analyte.reference.role = "comparator";
    analyte.reference.title = "another rapid test on the same specimen";
  }
  for (const accuracy of evaluation.accuracy) {
    if (analytes.includes(accuracy.analyte)) accuracy.refused = "comparator_not_reference";
  }
  evaluation.alarms = [
    { code: "comparator_not_reference", count: analytes.length, total: 2, subjects: [...analytes] },
  ];
  return evaluation;
}

export function evaluationWithoutCriteria(): Evaluation {
  const evaluation = sampleEvaluation({ ...sampleStudy, criteria: [], comparisons: [] });
  for (const { measures } of evaluation.comparisons) {
    for (const measure of measures) measure.margin = null;
  }
  return evaluation;
}

export function singleAnalyteEvaluation(): Evaluation {
  const analytes = sampleStudy.analytes.filter(({ id }) => id === "hbsag");
  const criteria = sampleStudy.criteria.filter(({ analyte }) => analyte === "hbsag");
  const evaluation = structuredClone(
    sampleEvaluation(
      { ...sampleStudy, analytes, criteria },
      sampleCells.filter(({ analyte }) => analyte === "hbsag"),
    ),
  );
  evaluation.alarms = [];
  const only = <Item extends { analyte: string }>(items: Item[]) =>
    items.filter(({ analyte }) => analyte === "hbsag");
  for (const group of [...evaluation.participants.bySite, ...evaluation.participants.bySelection]) {
    group.referencePositive = only(group.referencePositive);
  }
  return evaluation;
}

/** Two kits side by side on the same people; the second kit has no lines of its own. */
export function twoKitsEvaluation(): Evaluation {
  const second = sampleCells
    .filter(({ analyte, specimen }) => analyte === "hbsag" && specimen === "venous")
    .map((cell) => ({ ...cell, kit: "kit-p" }));
  const criterion = sampleStudy.criteria.filter(({ id }) => id === "hbsag-se");
  const criteria = [
    ...sampleStudy.criteria,
    ...criterion.map((one) => ({ ...one, id: "p-se", kit: "kit-p" })),
  ];
  const { kit: _, ...rest } = sampleStudy;
  const study: Study = { ...rest, kits: ["kit.yaml", "kit-p.yaml"], criteria, decision: { control: "holm" } };
  const evaluation = sampleEvaluation(study, [...sampleCells, ...second]);
  return v.parse(EvaluationSchema, {
    ...evaluation,
    kits: [sampleKit, secondKit],
    comparisons: [kitComparison, ...evaluation.comparisons],
  });
}

/** As a table of counts gives it: no devices, readers, times, sites or repeats are known. */
export function countsEvaluation(): Evaluation {
  const evaluation = structuredClone(evaluationWithoutCriteria());
  evaluation.study.records = {
    shape: "counts",
    table: "counts.csv",
    columns: { true_positives: "tp", false_positives: "fp", false_negatives: "fn", true_negatives: "tn" },
  };
  Object.assign(evaluation.participants, {
    devices: 0,
    readings: 0,
    operators: 0,
    repeats: 0,
    lots: [],
    firstResultOn: null,
    lastResultOn: null,
    bySite: [],
    lineWithoutControl: 0,
  });
  return {
    ...evaluation,
    alarms: [],
    readingTime: [],
    interpretations: [],
    joint: [],
    subgroups: [],
    rereadings: [],
    agreement: [],
    manyReaders: [],
    comparisons: [],
    clustered: [],
  };
}

export { emptyEvaluation } from "./sample/empty.ts";
export { HOSTILE, hostileEvaluation } from "./sample/hostile.ts";
