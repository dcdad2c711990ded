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
            groups={ledger.map((table) => ({ heading: table.file, rows: ledgerLines(report, table) }))}
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
  readonly what: string;
  readonly rows: number;
  readonly total?: boolean;
}

/** A table's rows as a sum: used, set aside for each reason, all. */
function ledgerLines(report: Report, table: Ledger): LedgerLine[] {
  const { queries: words, reasons } = report.words;
  return [
    { what: words.used, rows: table.analysed },
    ...table.setAside.map(({ reason, rows }) => ({
      what: words.setAside(reasonText(reasons, reason)),
      rows,
    })),
    { what: words.allRows, rows: table.rows, total: true },
  ];
}

function ledgerColumns(report: Report): Column<LedgerLine>[] {
  const { queries: words } = report.words;
  return [
    { head: words.ledgerColumns.file, heading: true, cell: ({ what }) => what },
    {
      head: words.ledgerColumns.rows,
      kind: "number",
      cell: ({ rows, total }) => (total === true ? <b class="sum">{count(rows)}</b> : count(rows)),
    },
  ];
}

/** A reason of people or of rows; rows are set aside by the rules of the data checks. */
function reasonText(reasons: Readonly<Record<string, string>>, reason: string): string {
  if (Object.hasOwn(reasons, reason)) return worded(reasons, reason);
  return issueRule(reason)?.meaning ?? worded({}, reason);
}
