import { type Table, writeCsv } from "../evaluation/csv.ts";
import type { RenderedFigure } from "./render-figures.ts";

/** A file of a report folder. */
export interface PageFile {
  /** Relative to the folder, with `/`. */
  readonly name: string;
  readonly content: string;
}

/** What stands beside a page: its tables as CSV, and its charts as specifications to restyle. */
export function filesBeside(tables: readonly Table[], figures: readonly RenderedFigure[]): PageFile[] {
  return [
    ...tables.map((table) => ({ name: `tables/${table.name}.csv`, content: writeCsv(table) })),
    ...figures.map(({ name, spec }) => ({
      name: `figures/${name}.vl.json`,
      content: `${JSON.stringify(spec, null, 2)}\n`,
    })),
  ];
}
