import { type Table, writeCsv } from "../evaluation/csv.ts";
import type { RenderedFigure } from "../report/render-figures.ts";
import type { NewFile } from "./files.ts";

/** What stands beside a page: its tables as CSV, and its charts as specifications to restyle. */
export function filesBeside(tables: readonly Table[], figures: readonly RenderedFigure[]): NewFile[] {
  return [
    ...tables.map((table) => ({ name: `tables/${table.name}.csv`, content: writeCsv(table) })),
    ...figures.map(({ name, spec }) => ({
      name: `figures/${name}.vl.json`,
      content: `${JSON.stringify(spec, null, 2)}\n`,
    })),
  ];
}
