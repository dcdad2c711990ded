import type { EffortPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { PlanNotes, shown } from "../parts.tsx";

/** How long it takes, how many kits, and what it costs, site by site. */
export function Effort({ report }: PlanSectionProps) {
  const { effort } = report.planning;
  return (
    <Section report={report} id="effort">
      {effort === null ? null : <Parts report={report} effort={effort} />}
    </Section>
  );
}

interface Props {
  readonly report: PlanReport;
  readonly effort: EffortPlan;
}

function Parts({ report, effort }: Props) {
  const { effort: words } = report.words.plan;
  const priced = report.planning.plan.costs !== undefined;
  return (
    <>
      <p>{words.lead(effort.input.total)}</p>
      <Days report={report} effort={effort} priced={priced} />
      <Sites report={report} effort={effort} />
      {priced ? <Costs report={report} effort={effort} /> : null}
      <PlanNotes report={report} notes={effort.notes} />
    </>
  );
}

interface DayLine {
  readonly label: string;
  readonly days: number | null;
  readonly cost: number | null;
}

function Days({ report, effort, priced }: Props & { priced: boolean }) {
  const { effort: words } = report.words.plan;
  const { days, cost } = effort.values;
  const rows: DayLine[] = [
    { label: words.onAverage, days: days.expected, cost: cost.total },
    ...days.atAssurances.map((at) => ({ label: words.sure(at.assurance), days: at.days, cost: at.cost })),
  ];
  const columns: Column<DayLine>[] = [
    { head: words.columns.finished, heading: true, cell: ({ label }) => label },
    {
      head: words.columns.days,
      kind: "number",
      cell: (row) => shown(row.days, (value) => formats.count(Math.ceil(value))),
    },
    ...(priced
      ? [
          {
            head: words.columns.cost(unitOf(report)),
            kind: "number" as const,
            cell: (row: DayLine) => shown(row.cost, formats.count),
          },
        ]
      : []),
  ];
  return <DataTable report={report} caption={words.daysCaption} columns={columns} groups={[{ rows }]} />;
}

type SiteLine = EffortPlan["values"]["bySite"][number];

function Sites({ report, effort }: Props) {
  const { effort: words } = report.words.plan;
  const given = (label: string) => effort.input.sites.find((site) => site.label === label);
  const columns: Column<SiteLine>[] = [
    { head: words.siteColumns.site, heading: true, cell: ({ label }) => titleOf(report, label) },
    {
      head: words.siteColumns.perDay,
      kind: "number",
      cell: ({ label }) => shown(given(label)?.perDay ?? null, formats.stated),
    },
    {
      head: words.siteColumns.opensAfter,
      kind: "number",
      cell: ({ label }) => shown(given(label)?.opensAfterDays ?? null, formats.stated),
    },
    {
      head: words.siteColumns.people,
      kind: "number",
      cell: ({ people }) => shown(people, formats.expectedPeople),
    },
    { head: words.siteColumns.kits, kind: "number", cell: ({ kits }) => shown(kits, formats.count) },
  ];
  return (
    <DataTable
      report={report}
      caption={words.sitesCaption}
      columns={columns}
      groups={[{ rows: effort.values.bySite }]}
      note={effort.values.kits === null ? words.sitesNote : words.kits(effort.values.kits)}
    />
  );
}

/** A site by its title where the document names it by its id. */
function titleOf({ planning }: PlanReport, label: string): string {
  return planning.plan.recruitment.sites.find(({ id }) => id === label)?.title ?? label;
}

function unitOf({ planning }: PlanReport): string {
  return planning.plan.costs?.unit ?? "";
}

function Costs({ report, effort }: Props) {
  const { effort: words } = report.words.plan;
  const { cost } = effort.values;
  const parts = ["fixed", "sites", "days", "people", "kits", "references"] as const;
  const rows: { label: string; amount: number | null; total: boolean }[] = [
    ...parts.map((part) => ({ label: words.costs[part], amount: cost[part], total: false })),
    { label: words.costs.total, amount: cost.total, total: true },
  ];
  return (
    <DataTable
      report={report}
      caption={words.costsCaption}
      lead={words.costsLead}
      columns={[
        { head: words.columns.item, heading: true, cell: ({ label }) => label },
        {
          head: sentenceUnit(report),
          kind: "number",
          cell: ({ amount, total }) =>
            amount === null ? "" : total ? <b>{formats.count(amount)}</b> : formats.count(amount),
        },
      ]}
      groups={[{ rows: rows.filter(({ amount, total }) => total || amount !== 0) }]}
    />
  );
}

function sentenceUnit(report: PlanReport): string {
  return report.words.grammar.sentence(unitOf(report));
}
