import type { Cell, Table } from "../csv.ts";
import type { Accuracy, Evaluation } from "../document.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** Criteria and their verdicts; one row each, and one for each other treatment. */
export function answersTable(evaluation: Evaluation): Table {
  const columns = [
    "criterion",
    ...CELL_COLUMNS,
    "measure",
    "importance",
    "direction",
    "threshold",
    ...ESTIMATE_COLUMNS,
    "probability",
    "further",
    "treatment",
    "verdict",
  ];
  const rows = evaluation.answers.flatMap((answer) => {
    const start = [
      answer.criterion,
      ...cellColumns(answer),
      answer.measure,
      answer.importance,
      answer.direction,
      answer.threshold,
    ];
    const changed = (kind: string, entries: readonly { treatment: string; verdict: string }[]) =>
      entries.map(({ treatment, verdict }) => [
        ...start,
        ...Array.from({ length: 7 }, () => null),
        `${kind}: ${treatment}`,
        verdict,
      ]);
    return [
      [
        ...start,
        ...estimateColumns(answer.estimate),
        answer.probability,
        answer.further,
        "primary",
        answer.verdict,
      ],
      ...changed("invalid", answer.byInvalidTreatment),
      ...changed("outside window", answer.byWindowTreatment),
    ];
  });
  return { name: "answers", columns, rows };
}

/** Every measure of the primary analysis; one row each. */
export function accuracyTable(evaluation: Evaluation): Table {
  const { method, level } = evaluation.study.interval;
  const rows = evaluation.accuracy.flatMap((accuracy) =>
    measuresOf(accuracy).map(([measure, estimate, interval]) => [
      ...cellColumns(accuracy),
      measure,
      ...estimateColumns(estimate),
      interval ?? method,
      level,
    ]),
  );
  return {
    name: "accuracy",
    columns: [...CELL_COLUMNS, "measure", ...ESTIMATE_COLUMNS, "interval", "level"],
    rows,
  };
}

/** As the method chooses it. */
const RATIO_INTERVAL = "log (score where a count is 0)";

type Measured = readonly [
  measure: string,
  estimate: Parameters<typeof estimateColumns>[0],
  interval?: string,
];

function measuresOf(accuracy: Accuracy): Measured[] {
  const own = accuracy.ownPredictiveValues;
  const ownValues: Measured[] =
    own === null
      ? []
      : [
          ["ppv_in_this_study", own.ppv],
          ["npv_in_this_study", own.npv],
        ];
  return [
    ["sensitivity", accuracy.sensitivity],
    ["specificity", accuracy.specificity],
    ["sensitivity", accuracy.wilson.sensitivity, "wilson"],
    ["specificity", accuracy.wilson.specificity, "wilson"],
    ["positive_likelihood_ratio", accuracy.positiveLikelihoodRatio, RATIO_INTERVAL],
    ["negative_likelihood_ratio", accuracy.negativeLikelihoodRatio, RATIO_INTERVAL],
    ["diagnostic_odds_ratio", accuracy.diagnosticOddsRatio, "log (exact where a count is 0)"],
    ["youden", accuracy.youden, "newcombe"],
    ["overall_accuracy", accuracy.overallAccuracy],
    ["apparent_prevalence", accuracy.apparentPrevalence],
    ["reference_prevalence", accuracy.referencePrevalence],
    ...ownValues,
  ];
}

/** People by rapid result and reference status, before any treatment. */
export function crosstabsTable(evaluation: Evaluation): Table {
  const rows = evaluation.accuracy.flatMap((accuracy) =>
    Object.entries(accuracy.crossTabulation).flatMap(([rapid, byReference]) =>
      Object.entries(byReference).map(([reference, people]): Cell[] => [
        ...cellColumns(accuracy),
        rapid,
        reference,
        people,
      ]),
    ),
  );
  return { name: "crosstabs", columns: [...CELL_COLUMNS, "rapid", "reference", "people"], rows };
}

/** Predictive values at the programmes' prevalences and along the curve. */
export function predictiveTable(evaluation: Evaluation): Table {
  const pair = (
    start: readonly Cell[],
    at: { readonly prevalence: number; readonly ppv: Measured[1]; readonly npv: Measured[1] },
  ): Cell[][] =>
    (["ppv", "npv"] as const).map((measure) => [
      ...start,
      at.prevalence,
      measure,
      ...estimateColumns(at[measure]).slice(2),
    ]);
  const rows = evaluation.predictive.flatMap((predictive) => [
    ...predictive.programmes.flatMap((programme) => [
      ...pair([...cellColumns(predictive), programme.id], programme),
      ...Object.entries(programme.per10000).map(([what, people]): Cell[] => [
        ...cellColumns(predictive),
        programme.id,
        programme.prevalence,
        `${what}_per_10000`,
        ...estimateColumns(people).slice(2),
      ]),
    ]),
    ...predictive.curve.flatMap((point) => pair([...cellColumns(predictive), null], point)),
  ]);
  return {
    name: "predictive",
    columns: [...CELL_COLUMNS, "programme", "prevalence", "measure", "value", "lower", "upper"],
    rows,
  };
}
