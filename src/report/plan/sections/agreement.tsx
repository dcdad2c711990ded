import type { AgreementPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { statedSigned } from "../names.ts";
import { PeopleOr, PlanNotes, shown } from "../parts.tsx";

/** Devices that two readers must both read for their kappa to be known closely enough. */
export function Agreement({ report }: PlanSectionProps) {
  const { agreement: words } = report.words.plan;
  const { agreement } = report.planning;
  return (
    <Section report={report} id="agreement">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={[{ rows: agreement }]}
        note={words.note}
      />
      <DataTable
        report={report}
        caption={words.simulatedCaption}
        lead={words.simulatedLead}
        columns={simulatedColumns(report)}
        groups={[{ rows: agreement }]}
      />
      <PlanNotes report={report} notes={agreement.flatMap(({ size }) => size.notes)} />
    </Section>
  );
}

function named(report: PlanReport): Column<AgreementPlan> {
  return {
    head: report.words.plan.agreement.columns.title,
    heading: true,
    cell: ({ agreement: id }) => report.planning.plan.agreement.find((one) => one.id === id)?.title ?? id,
  };
}

function columnsOf(report: PlanReport): Column<AgreementPlan>[] {
  const { columns } = report.words.plan.agreement;
  return [
    named(report),
    { head: columns.kappa, kind: "number", cell: ({ size }) => formats.stated(size.input.kappa) },
    {
      head: columns.halfWidth,
      kind: "number",
      cell: ({ size }) => `±${formats.THIN}${formats.stated(size.input.halfWidth)}`,
    },
    {
      head: columns.reactive,
      kind: "number",
      cell: ({ size }) =>
        `${statedSigned(size.input.reactiveFirst)} / ${statedSigned(size.input.reactiveSecond)}`,
    },
    {
      head: columns.possible,
      kind: "number",
      cell: ({ size }) => {
        const { least, most } = size.values.feasible;
        return least === null || most === null
          ? ""
          : formats.range(formats.index(least), formats.index(most));
      },
    },
    {
      head: columns.total,
      kind: "number",
      cell: ({ size }) => <PeopleOr report={report} of={size.values.total} bold />,
    },
    {
      head: columns.disagreements,
      kind: "number",
      cell: ({ size }) => shown(size.values.expectedDisagreements, formats.expectedPeople),
    },
  ];
}

function simulatedColumns(report: PlanReport): Column<AgreementPlan>[] {
  const { simulatedColumns: heads } = report.words.plan.agreement;
  return [
    named(report),
    { head: heads.draws, kind: "number", cell: ({ size }) => formats.count(size.options.draws) },
    {
      head: heads.halfWidth,
      kind: "number",
      cell: ({ size }) => shown(size.values.simulated.halfWidth, formats.correlation),
    },
    {
      head: heads.asPrecise,
      kind: "number",
      cell: ({ size }) => shown(size.values.simulated.asPrecise, formats.probability),
    },
    {
      head: heads.coverage,
      kind: "number",
      cell: ({ size }) => shown(size.values.simulated.coverage, formats.percentSigned),
    },
    {
      head: heads.without,
      kind: "number",
      cell: ({ size }) => shown(size.values.simulated.withoutInterval, formats.percentSigned),
    },
  ];
}
