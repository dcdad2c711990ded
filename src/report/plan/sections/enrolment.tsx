import type { EnrolmentPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { AnalytePart, Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { planFigureName } from "../figure-names.ts";
import { groupName, needName, plannedTitle } from "../names.ts";
import { PeopleOr, PlanNotes } from "../parts.tsx";

/** From people needed to people enrolled, analyte by analyte. */
export function Enrolment({ report }: PlanSectionProps) {
  const { enrolment: words } = report.words.plan;
  return (
    <Section report={report} id="enrolment">
      <p>{words.lead}</p>
      {report.planning.enrolment.map((line, place) => (
        <AnalytePart key={line.analyte} analyte={line.analyte}>
          <OneAnalyte report={report} line={line} place={place} />
        </AnalytePart>
      ))}
    </Section>
  );
}

interface Props {
  readonly report: PlanReport;
  readonly line: EnrolmentPlan;
  readonly place: number;
}

function OneAnalyte({ report, line, place }: Props) {
  const { enrolment: words } = report.words.plan;
  const title = plannedTitle(report, line.analyte);
  const { enrolment } = line;
  return (
    <>
      <h3>{report.words.grammar.sentence(title)}</h3>
      <p>{explained(report, line)}</p>
      <Chart
        report={report}
        name={planFigureName("enrolment", place, line.analyte)}
        label={words.chart(title)}
      >
        <CurveTable report={report} line={line} title={title} />
      </Chart>
      {enrolment === null ? null : (
        <DataTable
          report={report}
          caption={words.caption(title)}
          columns={columnsOf(report)}
          groups={[{ rows: enrolment.values.targets }]}
        />
      )}
      <PlanNotes report={report} notes={[...line.notes, ...(enrolment?.notes ?? [])]} />
    </>
  );
}

/** Who is needed and why, and what the losses leave. */
function explained(report: PlanReport, line: EnrolmentPlan): string {
  const { enrolment: words } = report.words.plan;
  const { grammar } = report.words;
  const need = report.planning.answer.byAnalyte.find(({ analyte }) => analyte === line.analyte);
  const asked = (["positives", "negatives", "tested"] as const).flatMap((of) => {
    const one = need?.[of];
    if (one === undefined || one.needed === null || one.needed === 0) return [];
    const group = groupName(report, line.analyte, of);
    return [words.needed(one.needed, group, one.because === null ? null : needName(report, one.because))];
  });
  const { enrolment } = line;
  const usable = enrolment?.values.usable ?? null;
  const naive = enrolment?.values.naive ?? null;
  return [
    ...(asked.length === 0 ? [] : [words.asks(grammar.listed(asked))]),
    ...(usable === null ? [] : [words.usable(formats.percentSigned(usable))]),
    ...(naive?.total == null || naive.fallsShort === null
      ? []
      : [words.naive(naive.total, formats.chance(naive.fallsShort))]),
    ...(line.forTested === null ? [] : [words.forTested(line.forTested)]),
  ].join(" ");
}

type Target = NonNullable<EnrolmentPlan["enrolment"]>["values"]["targets"][number];

function columnsOf(report: PlanReport): Column<Target>[] {
  const { columns } = report.words.plan.enrolment;
  const { limiting } = report.words.plan.people;
  return [
    {
      head: columns.assurance,
      heading: true,
      cell: ({ assurance }) => (assurance === null ? "" : formats.chance(assurance)),
    },
    {
      head: columns.forPositives,
      kind: "number",
      cell: ({ forPositives }) => <PeopleOr report={report} of={forPositives} />,
    },
    {
      head: columns.forNegatives,
      kind: "number",
      cell: ({ forNegatives }) => <PeopleOr report={report} of={forNegatives} />,
    },
    { head: columns.both, kind: "number", cell: ({ total }) => <PeopleOr report={report} of={total} bold /> },
    { head: columns.limiting, cell: (target) => (target.limiting === null ? "" : limiting[target.limiting]) },
  ];
}

/** Rows of the folded table. */
const ROWS = 24;

function CurveTable({ report, line, title }: Omit<Props, "place"> & { title: string }) {
  const { enrolment: words } = report.words.plan;
  const step = Math.max(1, Math.ceil(line.curve.length / ROWS));
  const rows = line.curve.filter((_, at) => at % step === 0 || at === line.curve.length - 1);
  return (
    <DataTable
      report={report}
      caption={words.curveCaption(title)}
      columns={[
        {
          head: words.curveColumns.enrolled,
          heading: true,
          kind: "number",
          cell: ({ total }) => formats.count(total),
        },
        {
          head: words.curveColumns.chance,
          kind: "number",
          cell: ({ chance }) => formats.probability(chance),
        },
      ]}
      groups={[{ rows }]}
    />
  );
}
