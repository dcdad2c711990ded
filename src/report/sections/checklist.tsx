import { checklistStatus, type ItemStatus } from "../checklist-status.ts";
import { placeOf, type Report, type SectionProps } from "../context.ts";
import { Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";
import type { ChecklistItem } from "../words/en/checklist.ts";

interface Line {
  readonly item: string;
  readonly asks: string;
  readonly answered: ItemStatus;
}

/** What a complete report of such a study says, and where this document says it. */
export function Checklist({ report }: SectionProps) {
  const { checklist: words } = report.words;
  const statuses = checklistStatus(report.evaluation);
  const lines = (Object.entries(words.items) as [ChecklistItem, string][])
    .map(([item, asks]): Line => ({ item, asks, answered: onThePage(report, statuses[item]) }))
    .sort((one, other) => Number.parseInt(one.item, 10) - Number.parseInt(other.item, 10));
  const number = (status: ItemStatus["status"]) =>
    lines.filter(({ answered }) => answered.status === status).length;
  return (
    <Section report={report} id="checklist">
      <p>
        {words.lead} {words.counts(number("here"), number("partly"), number("authors"))}
      </p>
      <DataTable
        report={report}
        long
        caption={words.caption}
        columns={[
          { head: words.columns.item, heading: true, cell: (line) => line.item },
          { head: words.columns.asks, kind: "wide", cell: (line) => line.asks },
          { head: words.columns.status, cell: ({ answered }) => <Status report={report} of={answered} /> },
          {
            head: words.columns.where,
            kind: "wide",
            cell: ({ answered }) => <Where report={report} of={answered} />,
          },
        ]}
        groups={[{ rows: lines }]}
        note={words.source}
      />
    </Section>
  );
}

/** An answer in a section that this evaluation does not fill is no answer. */
function onThePage(report: Report, status: ItemStatus): ItemStatus {
  const { section } = status;
  if (section === null || section === "answer" || placeOf(report, section) !== null) return status;
  return { status: "authors", section: null, remark: status.remark };
}

function Status({ report, of }: { report: Report; of: ItemStatus }) {
  return <span class={`answered ${of.status}`}>{report.words.checklist.status[of.status]}</span>;
}

function Where({ report, of }: { report: Report; of: ItemStatus }) {
  const { checklist, answer, page } = report.words;
  const remark = checklist.remarks[of.remark];
  const place = of.section === null || of.section === "answer" ? null : placeOf(report, of.section);
  return (
    <>
      {of.section === "answer" ? <a href="#answer">{answer.heading}</a> : null}
      {place === null ? null : (
        <a href={`#${place.id}`}>{page.seeSection(String(place.number), place.title)}</a>
      )}
      {of.section !== null && remark !== "" ? "; " : ""}
      {remark}
    </>
  );
}
