import type { NormalSize, WidthPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { plannedTitle, statedSigned } from "../names.ts";
import { PeopleOr, PlanNotes, shown } from "../parts.tsx";

/** How many people for intervals as short as wanted, whatever the criteria; the textbook's number beside it. */
export function Precision({ report }: PlanSectionProps) {
  const { precision: words } = report.words.plan;
  const { widths, normalSizes } = report.planning;
  return (
    <Section report={report} id="precision">
      <p>{words.lead}</p>
      {widths.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.caption}
          columns={widthColumns(report)}
          groups={[{ rows: widths }]}
          note={words.howToRead}
        />
      )}
      {normalSizes.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.normalCaption}
          lead={words.normalLead}
          columns={normalColumns(report)}
          groups={[{ rows: normalSizes }]}
          note={words.normalNote}
        />
      )}
      <PlanNotes
        report={report}
        notes={[
          ...widths.flatMap(({ size, clustered, notes }) => [
            ...size.notes,
            ...(clustered?.notes ?? []),
            ...notes,
          ]),
          ...normalSizes.flatMap(({ size }) => size.notes),
        ]}
      />
    </Section>
  );
}

function widthColumns(report: PlanReport): Column<WidthPlan>[] {
  const { columns } = report.words.plan.precision;
  const titled = (id: string) => report.planning.plan.widths.find((width) => width.id === id)?.title ?? id;
  const clustered = report.planning.widths.some((width) => width.clustered !== null);
  return [
    { head: columns.title, heading: true, cell: ({ width }) => titled(width) },
    { head: columns.expected, kind: "number", cell: ({ size }) => statedSigned(size.input.expected) },
    {
      head: columns.halfWidth,
      kind: "number",
      cell: ({ size }) => `±${formats.THIN}${formats.statedPercent(size.input.halfWidth)}`,
    },
    {
      head: columns.onAverage,
      kind: "number",
      cell: ({ size }) => <PeopleOr report={report} of={size.values.expectedWidth.stays} />,
    },
    {
      head: columns.assured,
      kind: "number",
      cell: ({ size }) => (
        <>
          <PeopleOr report={report} of={size.values.assured.stays} bold={!clustered} />
          <span class="place">{columns.sure(size.options.assurance)}</span>
        </>
      ),
    },
    {
      head: columns.normal,
      kind: "number",
      cell: ({ size }) => shown(size.values.normal.total, formats.count),
    },
    ...(clustered
      ? [
          {
            head: columns.needed,
            kind: "number" as const,
            cell: ({ needed }: WidthPlan) => <PeopleOr report={report} of={needed} bold />,
          },
        ]
      : []),
  ];
}

function normalColumns(report: PlanReport): Column<NormalSize>[] {
  const { normalColumns: heads } = report.words.plan.precision;
  const number = (head: string, of: (line: NormalSize) => number | null): Column<NormalSize> => ({
    head,
    kind: "number",
    cell: (line) => shown(of(line), formats.count),
  });
  return [
    { head: heads.analyte, heading: true, cell: ({ analyte }) => plannedTitle(report, analyte) },
    {
      head: heads.expected,
      kind: "number",
      cell: ({ size: { input } }) =>
        `${formats.statedPercent(input.sensitivity)} / ${formats.statedPercent(input.specificity)}`,
    },
    {
      head: heads.halfWidth,
      kind: "number",
      cell: ({ size }) => `±${formats.THIN}${formats.statedPercent(size.input.halfWidth)}`,
    },
    {
      head: heads.prevalence,
      kind: "number",
      cell: ({ size }) => formats.percentSigned(size.input.prevalence),
    },
    number(heads.diseased, ({ size }) => size.values.diseased),
    number(heads.nondiseased, ({ size }) => size.values.nondiseased),
    number(heads.enrolled, ({ size }) => size.values.enrolled),
    number(heads.rounded, ({ size }) => size.values.fromRounded.enrolled),
  ];
}
