import type { ComponentChildren } from "preact";
import type { Report } from "../context.ts";
import { type Cell, cellTitle, mainCell, sameCell } from "../names.ts";
import { OpenOrFolded } from "./open-or-folded.tsx";

/**
 * The main cell of an analyte open under its heading; every other one folded on screen, and printed all the
 * same. `cells` are all cells of the section, the main ones first.
 */
export function MainOrFolded(props: {
  report: Report;
  cell: Cell;
  cells: readonly Cell[];
  /** The heading where it is open, made of the cell's title; absent: that title alone. */
  title?: (cell: string) => string;
  children: ComponentChildren;
}) {
  const { report, cell, cells, children, title = (of: string) => of } = props;
  const main = mainCell(cells, cell.analyte);
  const open = main !== undefined && sameCell(main, cell);
  return (
    <OpenOrFolded
      report={report}
      title={open ? title(cellTitle(report, cell)) : cellTitle(report, cell)}
      open={open}
    >
      {children}
    </OpenOrFolded>
  );
}
