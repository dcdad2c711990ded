import type { Pooling } from "../../../evaluation/pool/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { PoolNotes } from "../parts.tsx";

type Row = Pooling["leftOut"][number];

/** Rows that could not be used, each with its reason; and studies of one kind of people alone. */
export function LeftOut({ report }: PoolSectionProps) {
  const { leftOut: words } = report.words.pool;
  const { leftOut, notes } = report.pooling;
  const oneKind = notes.filter(({ code }) => code === "one_kind");
  return (
    <Section report={report} id="left">
      {leftOut.length === 0 ? null : (
        <>
          <p>{words.lead}</p>
          <DataTable
            report={report}
            caption={words.caption}
            columns={columnsOf(report)}
            groups={[{ rows: leftOut }]}
          />
        </>
      )}
      {oneKind.length === 0 ? null : (
        <>
          <p>{words.oneKindLead}</p>
          <PoolNotes report={report} notes={oneKind} all />
        </>
      )}
    </Section>
  );
}

function columnsOf(report: PoolReport): Column<Row>[] {
  const { columns, unnamed } = report.words.pool.leftOut;
  return [
    {
      head: columns.study,
      heading: true,
      cell: ({ study }) => study ?? <span class="absent">{unnamed}</span>,
    },
    { head: columns.row, kind: "number", cell: ({ row }) => formats.count(row) },
    { head: columns.column, cell: ({ column }) => (column === null ? "" : <code>{column}</code>) },
    { head: columns.expected, cell: ({ expected }) => expected },
    { head: columns.received, cell: ({ received }) => received },
  ];
}
