import type { Cell, Table } from "../csv.ts";
import type { Evaluation, Intensity, IntensityComparison } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** What instruments measured, where the study file names one. */
export function intensityTables({ intensities, intensityComparisons }: Evaluation): Table[] {
  return [
    ...(intensities.length > 0
      ? [
          curvesTable(intensities),
          areasTable(intensities),
          cutoffsTable(intensities),
          distributionTable(intensities),
        ]
      : []),
    ...(intensityComparisons.length > 0 ? [comparisonsTable(intensityComparisons)] : []),
  ];
}

/** Points of the curves, each with limits that hold for its cutoff alone. */
function curvesTable(cells: readonly Intensity[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.curve.points.flatMap((point) =>
      MEASURES.map((measure): Cell[] => [
        ...cellColumns(cell),
        point.cutoff,
        measure,
        ...estimateColumns(point[measure]),
      ]),
    ),
  );
  return { name: "roc_points", columns: [...CELL_COLUMNS, "cutoff", "measure", ...ESTIMATE_COLUMNS], rows };
}

/** Areas under the curves: the instrument's, and of line strength as readers saw it. */
function areasTable(cells: readonly Intensity[]): Table {
  const rows = cells.flatMap((cell) => {
    const row = (
      of: string,
      counts: Pick<Intensity["curve"], "positives" | "negatives" | "area">,
    ): Cell[] => [
      ...cellColumns(cell),
      of,
      counts.positives,
      counts.negatives,
      counts.area.value,
      counts.area.logit.lower,
      counts.area.logit.upper,
      counts.area.standardError,
    ];
    return [
      row("readings", cell.curve),
      ...cell.eyes.flatMap(({ reader, ordinal }) =>
        ordinal === null ? [] : [row(`line strength by ${reader}`, ordinal)],
      ),
    ];
  });
  const columns = ["of", "positives", "negatives", "area", "lower", "upper", "standard_error"];
  return { name: "roc_areas", columns: [...CELL_COLUMNS, ...columns], rows };
}

/** Accuracy at cutoffs: stated beforehand, chosen here (as seen, and as to be expected in others), and by eye. */
function cutoffsTable(cells: readonly Intensity[]): Table {
  const rows = cells.flatMap((cell) =>
    MEASURES.flatMap((measure): Cell[][] => {
      const { stated, chosen, eyes } = cell;
      const head = (which: string, cutoff: number | null): Cell[] => [
        ...cellColumns(cell),
        which,
        cutoff,
        measure,
      ];
      const { values } = chosen ?? { values: null };
      return [
        ...(stated === null ? [] : [[...head("stated", stated.cutoff), ...estimateColumns(stated[measure])]]),
        ...(values === null
          ? []
          : [
              [...head("chosen", values.cutoff.value), ...estimateColumns(values[measure])],
              [
                ...head("chosen, corrected", values.cutoff.value),
                ...[null, null, values.corrected[measure], null, null],
              ],
            ]),
        ...eyes.flatMap(({ reader, against }) =>
          against === null
            ? []
            : [[...head(`eye of ${reader}`, null), ...estimateColumns(against.eye[measure])]],
        ),
      ];
    }),
  );
  const columns = [...CELL_COLUMNS, "which", "cutoff", "measure", ...ESTIMATE_COLUMNS];
  return { name: "cutoffs", columns, rows };
}

/** Quartiles of readings by status, for all readings and by minutes. */
function distributionTable(cells: readonly Intensity[]): Table {
  const rows = cells.flatMap((cell) => [
    ...cell.distribution.groups.map((group): Cell[] => [
      ...cellColumns(cell),
      group.truth,
      null,
      null,
      group.readings,
      group.p25,
      group.median,
      group.p75,
    ]),
    ...(cell.distribution.minutes?.bands ?? []).map((band): Cell[] => [
      ...cellColumns(cell),
      band.truth,
      band.from,
      band.to,
      band.readings,
      band.p25,
      band.median,
      band.p75,
    ]),
  ]);
  const columns = ["status", "from_minutes", "to_minutes", "readings", "p25", "median", "p75"];
  return { name: "intensities", columns: [...CELL_COLUMNS, ...columns], rows };
}

function comparisonsTable(comparisons: readonly IntensityComparison[]): Table {
  const rows = comparisons.flatMap(({ analyte, specimen, first, second, people, values }): Cell[][] =>
    values === null
      ? []
      : [
          [
            ...[analyte, specimen, first.kit, first.reader, second.kit, second.reader],
            ...[people.positives, people.negatives],
            ...[values.first.area.value, values.second.area.value],
            ...[values.difference.value, values.difference.lower, values.difference.upper, values.p],
          ],
        ],
  );
  const columns = [
    ...["analyte", "specimen", "first_kit", "first_reader", "second_kit", "second_reader"],
    ...["positives", "negatives", "first_area", "second_area", "difference", "lower", "upper", "p"],
  ];
  return { name: "roc_comparisons", columns, rows };
}
