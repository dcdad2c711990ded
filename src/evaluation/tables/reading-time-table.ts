import type { Cell, Table } from "../csv.ts";
import type { Evaluation } from "../document.ts";
import { MEASURES, type MeasureName } from "../measures.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** When results were read, the two measures by it, and under each treatment of untimely readings. */
export function readingTimeTable(evaluation: Evaluation): Table {
  const rows = evaluation.readingTime.flatMap((time) => {
    const start = cellColumns(time);
    const measured = (
      kind: string,
      name: string,
      at: Readonly<Record<MeasureName, Parameters<typeof estimateColumns>[0]>>,
    ) =>
      MEASURES.map((measure): Cell[] => [
        ...start,
        kind,
        name,
        measure,
        ...estimateColumns(at[measure]),
        null,
      ]);
    return [
      ...time.histogram.map(({ from, people }): Cell[] => [
        ...start,
        "minute",
        String(from),
        "people",
        people,
        null,
        null,
        null,
        null,
        null,
      ]),
      ...time.byWindow.flatMap((at) => measured("read", at.window, at)),
      ...time.treatments.flatMap((at) => measured("treatment", at.treatment, at)),
      ...time.byMinutes.flatMap((at) => measured("minutes", `${at.from} to ${at.to}`, at)),
      ...time.differences.map(({ outside, measure, difference, pValue }): Cell[] => [
        ...start,
        "difference",
        `${outside} less in`,
        measure,
        ...estimateColumns(difference),
        pValue,
      ]),
      [...start, "all", "minutes_ending_in_0_or_5", "share", ...estimateColumns(time.roundedMinutes), null],
    ];
  });
  return {
    name: "reading_time",
    columns: [...CELL_COLUMNS, "by", "group", "measure", ...ESTIMATE_COLUMNS, "p"],
    rows,
  };
}
