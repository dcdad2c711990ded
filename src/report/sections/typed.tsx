import type { Interpretation } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle } from "../names.ts";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

/** Typed results held against the lines: misreading the rule and not seeing the line are two faults. */
export function Typed({ report }: SectionProps) {
  const { typed: words } = report.words;
  const checks = report.evaluation.interpretations;
  return (
    <Section report={report} id="typed">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={[{ rows: checks }]}
        note={words.howToRead}
      />
      <Misread report={report} checks={checks} />
    </Section>
  );
}

function columnsOf(report: Report): Column<Interpretation>[] {
  const { typed: words, general } = report.words;
  const misread = (check: Interpretation) => check.misreadRule.reduce((total, { count }) => total + count, 0);
  return [
    { head: words.columns.analyte, heading: true, cell: (check) => analyteTitle(report, check.analyte) },
    { head: words.columns.reader, cell: (check) => general.reader(check.reader) },
    { head: words.columns.typed, kind: "number", cell: (check) => formats.count(check.typed) },
    { head: words.columns.agree, kind: "number", cell: (check) => formats.count(check.agree) },
    { head: words.columns.misread, kind: "number", cell: (check) => formats.count(misread(check)) },
    {
      head: words.columns.saw,
      kind: "number",
      cell: (check) =>
        check.comparedLines === 0 ? "" : formats.countOf(check.sawDifferently, check.comparedLines),
    },
  ];
}

function Misread({ report, checks }: { report: Report; checks: readonly Interpretation[] }) {
  const { typed: words, codes } = report.words;
  const rows = checks.flatMap((check) =>
    check.misreadRule.map((fault) => ({ ...fault, analyte: check.analyte, reader: check.reader })),
  );
  if (rows.length === 0) return null;
  return (
    <DataTable
      report={report}
      caption={words.misreadCaption}
      columns={[
        { head: words.columns.analyte, heading: true, cell: (row) => analyteTitle(report, row.analyte) },
        { head: words.columns.reader, cell: (row) => report.words.general.reader(row.reader) },
        { head: words.misreadColumns.derived, cell: (row) => codes.rapid[row.derived] },
        { head: words.misreadColumns.typed, cell: (row) => codes.rapid[row.typed] },
        { head: words.misreadColumns.count, kind: "number", cell: (row) => formats.count(row.count) },
      ]}
      groups={[{ rows }]}
    />
  );
}
