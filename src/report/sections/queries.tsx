import type { Evaluation } from "../../evaluation/document.ts";
import { issueRule } from "../../records/issue-rules.ts";
import type { Report, SectionProps } from "../context.ts";
import { count } from "../formats.ts";
import { worded } from "../names.ts";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

type Group = Evaluation["queries"]["groups"][number];
type Ledger = Evaluation["queries"]["ledger"][number];

/** What the checks of the tables found, what became of it, and where each row went. */
export function Queries({ report }: SectionProps) {
  const { queries: words } = report.words;
  const { total, groups, ledger } = report.evaluation.queries;
  return (
    <Section report={report} id="queries">
      <p>{words.lead(total)}</p>
      {groups.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.caption}
          long
          columns={queryColumns(report)}
          groups={[{ rows: groups }]}
        />
      )}
      {ledger.length === 0 ? null : (
        <>
          <h3>{words.ledgerHeading}</h3>
          <DataTable
            report={report}
            caption={words.ledgerCaption}
            lead={words.ledgerLead}
            columns={ledgerColumns(report)}
            groups={ledger.map((table) => ({ rows: ledgerLines(table) }))}
            note={words.ledgerHowToRead}
          />
        </>
      )}
    </Section>
  );
}

function queryColumns(report: Report): Column<Group>[] {
  const { queries: words, codes, grammar } = report.words;
  return [
    { head: words.columns.severity, cell: (group) => codes.severities[group.severity] },
    {
      head: words.columns.found,
      heading: true,
      kind: "wide",
      cell: (group) => {
        const rule = issueRule(group.rule);
        return (
          <>
            {grammar.closed(grammar.sentence(rule?.meaning ?? worded({}, group.rule)))}
            {rule === null ? null : <span class="place">{grammar.closed(grammar.sentence(rule.fix))}</span>}
          </>
        );
      },
    },
    { head: words.columns.rows, kind: "number", cell: (group) => count(group.count) },
    {
      head: words.columns.became,
      kind: "short",
      cell: (group) => codes.consequences[group.consequence],
    },
    {
      head: words.columns.example,
      kind: "wide",
      cell: (group) => (
        <>
          {group.file}
          <span class="place">{exampleText(report, group)}</span>
        </>
      ),
    },
  ];
}

function exampleText(report: Report, group: Group): string {
  const { queries: words } = report.words;
  const [example] = group.examples;
  if (example === undefined) return "";
  const row = example.row === null ? "" : words.row(example.row);
  return words.example(row, example.column, example.expected, example.received);
}

interface LedgerLine {
  readonly table: Ledger | null;
  readonly reason: string | null;
  readonly rows: number | null;
}

/** One line for each reason; the table's own figures stand on its first line. */
function ledgerLines(table: Ledger): LedgerLine[] {
  if (table.setAside.length === 0) return [{ table, reason: null, rows: null }];
  return table.setAside.map(({ reason, rows }, place) => ({
    table: place === 0 ? table : null,
    reason,
    rows,
  }));
}

function ledgerColumns(report: Report): Column<LedgerLine>[] {
  const { queries: words, reasons } = report.words;
  const ofTable = (format: (table: Ledger) => string) => (line: LedgerLine) =>
    line.table === null ? "" : format(line.table);
  return [
    { head: words.ledgerColumns.file, heading: true, cell: ofTable((table) => table.file) },
    { head: words.ledgerColumns.rows, kind: "number", cell: ofTable((table) => count(table.rows)) },
    { head: words.ledgerColumns.used, kind: "number", cell: ofTable((table) => count(table.analysed)) },
    {
      head: words.ledgerColumns.reason,
      cell: ({ reason }) => (reason === null ? words.nothingSetAside : reasonText(reasons, reason)),
    },
    {
      head: words.ledgerColumns.number,
      kind: "number",
      cell: ({ rows }) => (rows === null ? count(0) : count(rows)),
    },
  ];
}

/** A reason of people or of rows; rows are set aside by the rules of the data checks. */
function reasonText(reasons: Readonly<Record<string, string>>, reason: string): string {
  if (Object.hasOwn(reasons, reason)) return worded(reasons, reason);
  return issueRule(reason)?.meaning ?? worded({}, reason);
}
