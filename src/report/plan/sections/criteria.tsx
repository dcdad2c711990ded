import type { CriterionPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { criterionName, criterionOf, powerText, statedSigned } from "../names.ts";
import { PeopleOr, shown } from "../parts.tsx";
import { CriterionPart } from "./criterion-part.tsx";

/** What each criterion asks for, at a glance; then one after the other with the power tooth by tooth. */
export function Criteria({ report }: PlanSectionProps) {
  const { criteria: words } = report.words.plan;
  const { criteria } = report.planning;
  return (
    <Section report={report} id="criteria">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={[{ rows: criteria }]}
        note={words.howToRead}
      />
      <DataTable
        report={report}
        caption={words.sourceCaption}
        columns={sourceColumns(report)}
        groups={[{ rows: criteria }]}
      />
      {criteria.map((line, place) => (
        <CriterionPart key={line.criterion} report={report} line={line} place={place} />
      ))}
    </Section>
  );
}

function columnsOf(report: PlanReport): Column<CriterionPlan>[] {
  const { columns, why } = report.words.plan.criteria;
  const clustered = report.planning.criteria.some((line) => line.clustered !== null);
  const flawless = report.planning.criteria.some(({ size }) => size.values.fewest !== null);
  return [
    { head: columns.criterion, heading: true, cell: ({ criterion }) => named(report, criterion) },
    {
      head: columns.expected,
      kind: "number",
      cell: ({ size }) => statedSigned(size.input.expected),
    },
    {
      head: columns.power,
      kind: "number",
      cell: (line) => (
        <>
          {powerText(line.power)}
          {why[line.why] === "" ? null : <span class="place">{why[line.why]}</span>}
        </>
      ),
    },
    ...(flawless
      ? [
          {
            head: columns.flawless,
            kind: "number" as const,
            cell: ({ size }: CriterionPlan) => shown(size.values.fewest, formats.count),
          },
        ]
      : []),
    {
      head: columns.first,
      kind: "number",
      cell: ({ size }) => <PeopleOr report={report} of={size.values.first.total} />,
    },
    {
      head: columns.stays,
      kind: "number",
      cell: ({ size }) => <PeopleOr report={report} of={size.values.stays.total} bold={!clustered} />,
    },
    ...(clustered
      ? [
          {
            head: columns.designEffect,
            kind: "number" as const,
            cell: (line: CriterionPlan) =>
              shown(line.clustered?.values.designEffect ?? null, formats.statistic),
          },
          {
            head: columns.needed,
            kind: "number" as const,
            cell: ({ needed }: CriterionPlan) => <PeopleOr report={report} of={needed} bold />,
          },
        ]
      : []),
  ];
}

function sourceColumns(report: PlanReport): Column<CriterionPlan>[] {
  const { columns } = report.words.plan.criteria;
  const { codes, page } = report.words;
  const of = (line: CriterionPlan) => criterionOf(report, line.criterion);
  return [
    { head: columns.criterion, heading: true, cell: ({ criterion }) => named(report, criterion) },
    {
      head: columns.importance,
      cell: (line) => codes.importance[of(line)?.importance ?? "primary"],
    },
    { head: columns.source, cell: (line) => of(line)?.source ?? "" },
    {
      head: columns.enteredOn,
      kind: "short",
      cell: (line) => {
        const day = of(line)?.entered_on;
        return day === undefined ? page.notStated : page.date(day);
      },
    },
  ];
}

function named(report: PlanReport, criterion: string): string {
  return report.words.grammar.sentence(criterionName(report, criterion));
}
