import type { Agreement } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { EstimateHead, IndexInterval, PercentInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { pairCell } from "../reader-names.ts";

/** Every pair in one line, with its four counts: whatever is folded below can be reckoned from here. */
export function ReadersGlance({ report, pairs }: { report: Report; pairs: readonly Agreement[] }) {
  const { readers: words } = report.words;
  const cells = [...new Set(pairs.map((pair) => pairCell(report, pair)))];
  return (
    <DataTable
      report={report}
      caption={words.glanceCaption}
      columns={columnsOf(report)}
      groups={cells.map((cell) => {
        const rows = pairs.filter((pair) => pairCell(report, pair) === cell);
        return { heading: cell, rows, ...(rows[0] === undefined ? {} : { analyte: rows[0].analyte }) };
      })}
      note={words.glanceHowToRead}
    />
  );
}

function columnsOf(report: Report): Column<Agreement>[] {
  const { readers: words, page } = report.words;
  const { glanceColumns: heads } = words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const counted = (head: string, of: (counts: Agreement["counts"]) => number): Column<Agreement> => ({
    head,
    kind: "number",
    cell: ({ counts }) => formats.count(of(counts)),
  });
  return [
    {
      head: heads.readers,
      heading: true,
      kind: "short",
      cell: ({ first, second }) => words.pairShort(first, second),
    },
    counted(heads.both, (counts) => counts.bothReactive),
    counted(heads.firstOnly, (counts) => counts.firstOnly),
    counted(heads.secondOnly, (counts) => counts.secondOnly),
    counted(heads.neither, (counts) => counts.bothNonreactive),
    {
      head: <EstimateHead sign={heads.overall} limits={limits} />,
      kind: "number",
      cell: (pair) => <PercentInterval report={report} of={pair.overall} />,
    },
    {
      head: <EstimateHead sign={heads.kappa} limits={limits} />,
      kind: "number",
      cell: (pair) => <IndexInterval report={report} of={pair.kappa} />,
    },
  ];
}
