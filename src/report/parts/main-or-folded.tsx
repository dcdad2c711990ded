import type { ComponentChildren } from "preact";
import type { Report } from "../context.ts";
import { type Cell, cellTitle, mainCell, sameCell } from "../names.ts";

/**
 * The main cell of an analyte open under its heading; every other one folded on screen, and printed all the
 * same. `cells` are all cells of the section, the main ones first.
 */
export function MainOrFolded(props: {
  report: Report;
  cell: Cell;
  cells: readonly Cell[];
  children: ComponentChildren;
}) {
  const { report, cell, cells, children } = props;
  const title = cellTitle(report, cell);
  const main = mainCell(cells, cell.analyte);
  if (main !== undefined && sameCell(main, cell)) {
    return (
      <>
        <h3>{title}</h3>
        {children}
      </>
    );
  }
  return (
    <details class="printed">
      <summary>{report.words.page.other(title)}</summary>
      {children}
    </details>
  );
}
