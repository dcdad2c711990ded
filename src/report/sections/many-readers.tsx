import type { ManyReaders as ManyReadersOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { Notes } from "../parts/notes.tsx";
import { EstimateHead, IndexInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { pairCell } from "../reader-names.ts";

/** All eye readers at once, where two alone do not tell the whole. */
export function ManyReaders({ report }: SectionProps) {
  const { readers: words } = report.words;
  const cells = report.evaluation.manyReaders;
  if (cells.length === 0) return null;
  return (
    <>
      <h3>{words.manyHeading}</h3>
      <DataTable
        report={report}
        caption={words.manyCaption}
        lead={words.manyLead}
        columns={columnsOf(report)}
        groups={[{ rows: cells }]}
      />
      <Notes report={report} notes={cells.flatMap(({ notes }) => notes)} />
    </>
  );
}

function columnsOf(report: Report): Column<ManyReadersOf>[] {
  const { readers: words, general, grammar, page } = report.words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const coefficient = (head: string, of: (cell: ManyReadersOf) => formats.Limits): Column<ManyReadersOf> => ({
    head: <EstimateHead sign={head} limits={limits} />,
    kind: "number",
    cell: (cell) => <IndexInterval report={report} of={of(cell)} />,
  });
  return [
    { head: words.manyColumns.cell, heading: true, cell: (cell) => pairCell(report, cell) },
    {
      head: words.manyColumns.readers,
      cell: ({ readers }) => grammar.listed(readers.map((reader) => general.reader(reader))),
    },
    { head: words.manyColumns.devices, kind: "number", cell: ({ devices }) => formats.count(devices) },
    coefficient(words.manyColumns.kappa, (cell) => cell.fleissKappa),
    coefficient(words.manyColumns.ac1, (cell) => cell.ac1),
    coefficient(words.manyColumns.alpha, (cell) => cell.alpha),
  ];
}
