import type { Cell, Table } from "../csv.ts";
import type { Comparison, Evaluation } from "../document.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

const SIDE_COLUMNS = ["kit", "specimen", "reader"];

/** Each measure of each comparison: both sides, difference, ratio, and the verdict on the margin. */
export function comparisonsTable(evaluation: Evaluation): Table {
  const rows = evaluation.comparisons.flatMap((comparison) => {
    const start = sidesOf(comparison);
    const measured = comparison.measures.flatMap((measure) => {
      const { margin } = measure;
      const judged: Cell[] = [margin?.margin ?? null, margin?.kind ?? null, margin?.verdict ?? null];
      const row = (what: string, estimate: Parameters<typeof estimateColumns>[0], rest: Cell[]): Cell[] => [
        ...start,
        measure.measure,
        what,
        ...estimateColumns(estimate),
        ...rest,
      ];
      const without: Cell[] = [null, null, null, null, null, null];
      return [
        row("first", measure.first, without),
        row("second", measure.second, without),
        row("difference", measure.difference, [measure.interval, measure.pValue, measure.test, ...judged]),
        row("ratio", measure.ratio, without),
      ];
    });
    const predictive = comparison.predictive.flatMap((value): Cell[][] => [
      [...start, value.measure, "difference", ...estimateColumns(value.difference), null, value.pValue],
      [...start, value.measure, "ratio", ...estimateColumns(value.ratio), null, null],
    ]);
    return [...measured, ...predictive.map((row) => [...row, null, null, null, null])];
  });
  const columns = [
    "comparison",
    "analyte",
    ...SIDE_COLUMNS.map((name) => `first_${name}`),
    ...SIDE_COLUMNS.map((name) => `second_${name}`),
    "people_on_both",
    "measure",
    "what",
    ...ESTIMATE_COLUMNS,
    "interval",
    "p",
    "test",
    "margin",
    "kind",
    "verdict",
  ];
  return { name: "comparisons", columns, rows };
}

function sidesOf({ id, analyte, first, second, people }: Comparison): Cell[] {
  const side = ({ kit, specimen, reader }: Comparison["first"]) => [kit, specimen, reader];
  return [id, analyte, ...side(first), ...side(second), people.both];
}

/** Both measures by the plain interval and by those that allow for clusters. */
export function clusteredTable(evaluation: Evaluation): Table {
  const rows = evaluation.clustered.flatMap((clustered) => {
    const { measure, cluster, clusters, designEffect, intraclusterCorrelation, effectiveTotal } = clustered;
    const intervals = [
      ["plain", clustered.plain],
      ["ratio_estimator", clustered.ratioEstimator],
      ["effective", clustered.effective],
      ["bootstrap", clustered.bootstrap],
    ] as const;
    return intervals.map(([interval, estimate]): Cell[] => [
      ...cellColumns(clustered),
      measure,
      cluster,
      clusters,
      interval,
      ...estimateColumns(estimate),
      designEffect,
      intraclusterCorrelation,
      effectiveTotal,
    ]);
  });
  const columns = [
    ...CELL_COLUMNS,
    "measure",
    "cluster",
    "clusters",
    "interval",
    ...ESTIMATE_COLUMNS,
    "design_effect",
    "intracluster_correlation",
    "effective_total",
  ];
  return { name: "clustered", columns, rows };
}

/** The primary criteria judged together: one row each, and one for all. */
export function decisionTable({ decision }: Evaluation): Table {
  const columns = [
    "control",
    "criterion",
    "p",
    "adjusted_p",
    "verdict",
    "joint_probability",
    "lowest",
    "highest",
  ];
  if (decision === null) return { name: "decision", columns, rows: [] };
  const { control, criteria, overall, joint } = decision;
  const rows = criteria.map(({ criterion, pValue, adjustedPValue, verdict }): Cell[] => [
    control,
    criterion,
    pValue,
    adjustedPValue,
    verdict,
    null,
    null,
    null,
  ]);
  const all: Cell[] = [control, null, null, null, overall, joint.independent, joint.lowest, joint.highest];
  return { name: "decision", columns, rows: [...rows, all] };
}

/** What further people would do to each undecided criterion. */
export function assuranceTable(evaluation: Evaluation): Table {
  const rows = evaluation.assurance.flatMap(({ criterion, further, ifEstimateHolds, predicted, needed }) => [
    ...(
      [
        ["if_estimate_holds", ifEstimateHolds],
        ["predicted", predicted],
      ] as const
    ).map(([by, outlook]): Cell[] => [
      criterion,
      by,
      null,
      further,
      outlook.met,
      outlook.notMet,
      outlook.undecided,
    ]),
    ...needed.map(({ chance, further: people }): Cell[] => [
      criterion,
      "needed",
      chance,
      people,
      null,
      null,
      null,
    ]),
  ]);
  const columns = ["criterion", "by", "chance", "further", "met", "not_met", "undecided"];
  return { name: "assurance", columns, rows };
}

/** Apparent positivity and the true prevalence behind it. */
export function truePrevalenceTable(evaluation: Evaluation): Table {
  const rows = evaluation.truePrevalence.flatMap((found) =>
    (
      [
        ["apparent", found.apparent],
        ["true", found.estimated],
        ["true_if_accuracy_is_known", found.known],
      ] as const
    ).map(([prevalence, estimate]): Cell[] => [
      ...cellColumns(found),
      found.population,
      prevalence,
      ...estimateColumns(estimate),
    ]),
  );
  const columns = [...CELL_COLUMNS, "population", "prevalence", ...ESTIMATE_COLUMNS];
  return { name: "true_prevalence", columns, rows };
}
