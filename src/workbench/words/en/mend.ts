import { count } from "../../../report/formats.ts";

/** Words of mending: a fault's row, shown and changed in place. */
export const mend = {
  open: "Show the row",
  openField: "Show the field",
  heading: (file: string, row: number) => `${file}, row ${count(row)}`,
  of: (place: number, all: number) => `fault ${count(place)} of ${count(all)} of this kind`,
  previous: "Fault before",
  next: "Next fault",
  close: "Close the row",
  cell: (column: string, row: number) => `${column}, row ${count(row)}`,
  line: (row: number) => `Text of row ${count(row)}`,
  broken: "This row can't be taken apart into the columns of its table. Change its text.",
  mended: "No fault is found in this row now.",
  still: (expected: string, received: string) => `expected ${expected}, received ${received}`,
  gone: "There is no such row in the file now.",
  row: "Row",
  around: "The row with its neighbours",
  after: "A change is taken over when you leave the cell or press Enter; the files are then read again.",
};
