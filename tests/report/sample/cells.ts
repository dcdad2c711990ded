import type { Accuracy } from "../../../src/evaluation/document.ts";

/** People by rapid result and reference status: the invented counts from which all else follows. */
export interface CellCounts {
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  readonly reader: string;
  readonly table: Accuracy["crossTabulation"];
  readonly firstInvalid: number;
}

type Row = readonly [positive: number, negative: number, indeterminate: number, notDone: number];

function row([positive, negative, indeterminate, not_done]: Row) {
  return { positive, negative, indeterminate, not_done };
}

function cell(
  analyte: string,
  specimen: string,
  firstInvalid: number,
  rows: { reactive: Row; nonreactive: Row; invalid: Row; notDone: Row },
): CellCounts {
  const table = {
    reactive: row(rows.reactive),
    nonreactive: row(rows.nonreactive),
    invalid: row(rows.invalid),
    not_done: row(rows.notDone),
  };
  return { analyte, kit: "kit-q", specimen, reader: "R1", table, firstInvalid };
}

/** 1,720 eligible people in every cell; 11 (venous) and 19 (fingerstick) without a valid result. */
export const sampleCells: readonly CellCounts[] = [
  cell("hbsag", "venous", 17, {
    reactive: [111, 8, 1, 2],
    nonreactive: [2, 1541, 2, 14],
    invalid: [1, 9, 0, 1],
    notDone: [1, 26, 0, 1],
  }),
  cell("hcv", "venous", 17, {
    reactive: [139, 11, 4, 2],
    nonreactive: [1, 1503, 7, 14],
    invalid: [2, 8, 0, 1],
    notDone: [1, 26, 0, 1],
  }),
  cell("hbsag", "fingerstick", 44, {
    reactive: [108, 9, 1, 2],
    nonreactive: [5, 1526, 2, 13],
    invalid: [1, 17, 0, 1],
    notDone: [1, 32, 0, 2],
  }),
  cell("hcv", "fingerstick", 44, {
    reactive: [128, 12, 3, 2],
    nonreactive: [11, 1489, 7, 14],
    invalid: [3, 15, 0, 1],
    notDone: [1, 32, 1, 1],
  }),
];

export const sum = (row: Accuracy["crossTabulation"]["reactive"]) =>
  row.positive + row.negative + row.indeterminate + row.not_done;
