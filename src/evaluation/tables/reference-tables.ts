import { MEASURES as VERIFIED_MEASURES } from "../../methods/verification/fields.ts";
import type { Cell, Table } from "../csv.ts";
import type { Evaluation, ReferenceErrors, Verification } from "../document.ts";
import { VERDICT_LETTERS, type VerdictLetter } from "../schema/reference.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** How much the reference matters, where the study file states its errors or somebody was not verified. */
export function referenceTables(evaluation: Evaluation): Table[] {
  const { referenceErrors, verification } = evaluation;
  return [
    ...(referenceErrors.length > 0
      ? [errorsTable(referenceErrors), tippingTable(referenceErrors), mapTable(referenceErrors)]
      : []),
    ...(verification.length > 0
      ? [peopleTable(verification), verificationTable(verification), oddsRatioTable(verification)]
      : []),
  ];
}

/** Each measure as if the reference never erred, as it is believed to be, and over the ranges stated. */
function errorsTable(cells: readonly ReferenceErrors[]): Table {
  const rows = cells.flatMap((cell) =>
    (["naive", "corrected", "simulated"] as const).flatMap((by) => {
      const found = cell[by];
      if (found === null) return [];
      return (["sensitivity", "specificity", "prevalence"] as const).map((measure): Cell[] => [
        ...cellColumns(cell),
        measure,
        by,
        ...estimateColumns(found[measure]),
      ]);
    }),
  );
  return { name: "reference_errors", columns: [...CELL_COLUMNS, "measure", "by", ...ESTIMATE_COLUMNS], rows };
}

/** Each criterion: its verdicts, and how far each thing may go alone before the verdict changes. */
function tippingTable(cells: readonly ReferenceErrors[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.criteria.flatMap((judged) => {
      const { criterion, measure, threshold, direction, naive, perfect, believed, throughout, borders } =
        judged;
      return Object.entries(borders).flatMap(([what, sides]) =>
        (["below", "above"] as const).map((side): Cell[] => [
          ...cellColumns(cell),
          criterion,
          measure,
          threshold,
          direction,
          naive,
          perfect,
          believed,
          throughout,
          what,
          side,
          sides[side].at,
          sides[side].verdict,
        ]),
      );
    }),
  );
  const columns = [
    ...CELL_COLUMNS,
    ...["criterion", "measure", "threshold", "direction", "naive", "perfect", "believed", "throughout"],
    ...["border_of", "side", "at", "verdict_beyond"],
  ];
  return { name: "reference_tipping", columns, rows };
}

/** The verdict under each supposed reference. */
function mapTable(cells: readonly ReferenceErrors[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.criteria.flatMap(({ criterion, grid }) =>
      grid.sensitivities.flatMap((sensitivity, row) =>
        grid.specificities.map((specificity, column): Cell[] => [
          ...cellColumns(cell),
          criterion,
          sensitivity,
          specificity,
          VERDICT_LETTERS[(grid.verdicts[row]?.[column] ?? "x") as VerdictLetter],
          grid.fits[row]?.[column] === "1",
        ]),
      ),
    ),
  );
  const columns = ["criterion", "reference_sensitivity", "reference_specificity", "verdict", "fits"];
  return { name: "reference_map", columns: [...CELL_COLUMNS, ...columns], rows };
}

/** People by stratum, kit result and what is known of their true state; then those set aside. */
function peopleTable(cells: readonly Verification[]): Table {
  const rows = cells.flatMap((cell) => [
    ...cell.strata.flatMap((stratum) =>
      (["reactive", "nonreactive"] as const).flatMap((result) =>
        (["diseased", "nondiseased", "unverified"] as const).map((state): Cell[] => [
          ...cellColumns(cell),
          stratum.label,
          result,
          state,
          stratum[result][state],
        ]),
      ),
    ),
    ...cell.setAside.map(({ reason, people }): Cell[] => [...cellColumns(cell), null, null, reason, people]),
  ]);
  return {
    name: "verification_people",
    columns: [...CELL_COLUMNS, "stratum", "result", "state", "people"],
    rows,
  };
}

/** Each measure by the verified people alone, by every correction, and in the extreme cases. */
function verificationTable(cells: readonly Verification[]): Table {
  const rows = cells.flatMap((cell) => {
    const row = (measure: string, by: string, estimate: Parameters<typeof estimateColumns>[0]): Cell[] => [
      ...cellColumns(cell),
      measure,
      by,
      ...estimateColumns(estimate),
    ];
    return VERIFIED_MEASURES.flatMap((measure) => [
      ...(measure === "sensitivity" || measure === "specificity"
        ? [row(measure, "naive", cell.naive[measure])]
        : []),
      row(measure, "corrected", cell.corrected[measure]),
      row(measure, "weighted", cell.weighted[measure]),
      row(measure, "imputed", cell.imputed[measure]),
      row(measure, "lowest", cell.bounds[measure].lowest),
      row(measure, "highest", cell.bounds[measure].highest),
    ]);
  });
  return { name: "verification", columns: [...CELL_COLUMNS, "measure", "by", ...ESTIMATE_COLUMNS], rows };
}

/** Each criterion's measure and verdict along the odds ratio of being verified. */
function oddsRatioTable(cells: readonly Verification[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.criteria.flatMap(({ criterion, measure, axes }) =>
      Object.entries(axes).flatMap(([axis, { points }]) =>
        points.map(({ oddsRatio, estimate, verdict }): Cell[] => [
          ...cellColumns(cell),
          criterion,
          measure,
          axis,
          oddsRatio,
          estimate.value,
          estimate.lower,
          estimate.upper,
          verdict,
        ]),
      ),
    ),
  );
  const columns = ["criterion", "measure", "among", "odds_ratio", "value", "lower", "upper", "verdict"];
  return { name: "verification_odds_ratio", columns: [...CELL_COLUMNS, ...columns], rows };
}
