import * as v from "valibot";
import { type Evaluation, EvaluationSchema } from "../../../src/evaluation/document.ts";
import { sampleEvaluation } from "../sample-evaluation.ts";

/** A study folder whose tables hold no person at all. */
export function emptyEvaluation(): Evaluation {
  const nobody = { positive: 0, negative: 0, indeterminate: 0, not_done: 0 };
  const absent = { count: 0, total: 0, value: null, lower: null, upper: null };
  const unknown = { value: null, lower: null, upper: null };
  const evaluation = structuredClone(sampleEvaluation());
  const note = (path: string) => ({
    code: "no_people",
    path,
    message: "nobody was counted, so no share can be given",
  });
  for (const answer of evaluation.answers) {
    Object.assign(answer, { estimate: absent, verdict: "not_estimable", probability: null, further: null });
    answer.notes = [note("estimate")];
    for (const other of [...answer.byInvalidTreatment, ...answer.byWindowTreatment])
      other.verdict = "not_estimable";
  }
  for (const accuracy of evaluation.accuracy) {
    const measures = { sensitivity: absent, specificity: absent };
    Object.assign(accuracy, measures, {
      crossTabulation: { reactive: nobody, nonreactive: nobody, invalid: nobody, not_done: nobody },
      counts: { truePositives: 0, falsePositives: 0, falseNegatives: 0, trueNegatives: 0 },
      wilson: measures,
      positiveLikelihoodRatio: unknown,
      negativeLikelihoodRatio: unknown,
      diagnosticOddsRatio: unknown,
      youden: unknown,
      overallAccuracy: absent,
      apparentPrevalence: absent,
      referencePrevalence: absent,
      refused: "no_data",
      notes: [note("sensitivity"), note("specificity")],
    });
    accuracy.jointRegion.sensitivity = { lower: null, upper: null };
    accuracy.jointRegion.specificity = { lower: null, upper: null };
  }
  Object.assign(evaluation.participants, {
    enrolled: 0,
    devices: 0,
    readings: 0,
    operators: 0,
    repeats: 0,
    lots: [],
    firstResultOn: null,
    lastResultOn: null,
    bySite: [],
    bySelection: [],
    lineWithoutControl: 0,
  });
  return v.parse(EvaluationSchema, {
    ...evaluation,
    alarms: [],
    flows: [],
    queries: { total: 0, groups: [], ledger: [] },
    joint: [],
    invalid: [],
    subgroups: [],
    predictive: [],
    readingTime: [],
    interpretations: [],
    rereadings: [],
    agreement: [],
    manyReaders: [],
    comparisons: [],
    clustered: [],
    decision: null,
    assurance: [],
    truePrevalence: [],
  });
}
