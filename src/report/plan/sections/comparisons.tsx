import type { ComparisonPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { AnalytePart, Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { groupName, plannedTitle, powerText, statedSigned } from "../names.ts";
import { PeopleOr, PlanNotes, shown } from "../parts.tsx";

/** People needed to hold two kits against each other. */
export function Comparisons({ report }: PlanSectionProps) {
  const { comparisons: words } = report.words.plan;
  return (
    <Section report={report} id="comparisons">
      <p>{words.lead}</p>
      {report.planning.comparisons.map((line) => (
        <AnalytePart key={line.comparison} analyte={line.analyte}>
          <OneComparison report={report} line={line} />
        </AnalytePart>
      ))}
    </Section>
  );
}

interface Props {
  readonly report: PlanReport;
  readonly line: ComparisonPlan;
}

/** The finding that is not null, whichever of the four it is. */
function findingOf(line: ComparisonPlan) {
  return (
    line.pairedDifference ??
    line.pairedNoninferiority ??
    line.unpairedDifference ??
    line.unpairedNoninferiority
  );
}

function OneComparison({ report, line }: Props) {
  const planned = report.planning.plan.comparisons.find(({ id }) => id === line.comparison);
  const finding = findingOf(line);
  const clusters = line.clustered.flatMap(({ notes }) => notes);
  return (
    <>
      <h3>{planned?.title ?? line.comparison}</h3>
      <p>{explained(report, line)}</p>
      <Sizes report={report} line={line} />
      <Discordance report={report} line={line} />
      <PlanNotes report={report} notes={[...(finding?.notes ?? []), ...clusters, ...line.notes]} />
    </>
  );
}

function explained(report: PlanReport, line: ComparisonPlan): string {
  const { comparisons: words } = report.words.plan;
  const planned = report.planning.plan.comparisons.find(({ id }) => id === line.comparison);
  const finding = findingOf(line);
  if (planned === undefined || finding === null) return "";
  const { first, second } = finding.input;
  const group = groupName(report, line.analyte, line.of);
  const margin = "margin" in finding.input ? formats.statedPercent(finding.input.margin) : null;
  return [
    words.asks(planned.first.title, statedSigned(first), planned.second.title, statedSigned(second)),
    margin === null
      ? words.difference(powerText(finding.options.power))
      : words.noninferior(planned.first.title, margin, powerText(finding.options.power)),
    line.needed === null
      ? words.noNeed
      : line.groups === null
        ? words.paired(line.needed, group)
        : words.unpaired(line.groups.first, line.groups.second, line.needed, group),
  ].join(" ");
}

interface SizeLine {
  readonly how: string;
  readonly people: number | null;
  readonly second: number | null;
  readonly power: number | null;
  readonly before: number | null;
}

function sizeLines(report: PlanReport, line: ComparisonPlan): SizeLine[] {
  const { comparisons: words } = report.words.plan;
  const paired = line.pairedDifference ?? line.pairedNoninferiority;
  const unpaired = line.unpairedDifference ?? line.unpairedNoninferiority;
  const none = { second: null, power: null, before: null };
  if (paired !== null) {
    const { formula, exact } = paired.values;
    return [
      { how: words.formula, people: formula.total, ...none },
      { how: words.first, people: exact.first, ...none },
      { how: words.stays, people: exact.stays, second: null, power: exact.power, before: exact.powerBefore },
    ];
  }
  if (unpaired === null) return [];
  const { formula, exact } = unpaired.values;
  return [
    { how: words.formula, people: formula.perGroup, ...none, second: formula.secondGroup },
    { how: words.first, people: exact.first, ...none },
    {
      how: words.stays,
      people: exact.stays,
      second: exact.secondGroup,
      power: exact.power,
      before: exact.powerBefore,
    },
  ];
}

function Sizes({ report, line }: Props) {
  const { comparisons: words } = report.words.plan;
  const rows = sizeLines(report, line);
  const two = line.design === "unpaired";
  const title =
    report.planning.plan.comparisons.find(({ id }) => id === line.comparison)?.title ?? line.comparison;
  const columns: Column<SizeLine>[] = [
    { head: words.columns.how, heading: true, cell: ({ how }) => how },
    {
      head: two ? words.columns.firstGroup : words.columns.people,
      kind: "number",
      cell: ({ people }) => <PeopleOr report={report} of={people} />,
    },
    ...(two
      ? [
          {
            head: words.columns.secondGroup,
            kind: "number" as const,
            cell: ({ second }: SizeLine) => shown(second, formats.count),
          },
        ]
      : []),
    { head: words.columns.power, kind: "number", cell: ({ power }) => shown(power, formats.percentSigned) },
    {
      head: words.columns.before,
      kind: "number",
      cell: ({ before }) => shown(before, formats.percentSigned),
    },
  ];
  const of = plannedTitle(report, line.analyte);
  return (
    <DataTable
      report={report}
      caption={words.caption(title, of)}
      columns={columns}
      groups={[{ rows }]}
      note={words.note}
    />
  );
}

type Paired = NonNullable<ComparisonPlan["pairedDifference"]>;
type Bound = Paired["values"]["bounds"][number];

function Discordance({ report, line }: Props) {
  const { comparisons: words } = report.words.plan;
  const paired = line.pairedDifference ?? line.pairedNoninferiority;
  if (paired === null || paired.values.bounds.length === 0) return null;
  const title =
    report.planning.plan.comparisons.find(({ id }) => id === line.comparison)?.title ?? line.comparison;
  const { planned } = paired.values.discordant;
  const columns: Column<Bound>[] = [
    { head: words.boundColumns.at, heading: true, cell: ({ at }) => words.bounds[at] },
    {
      head: words.boundColumns.discordant,
      kind: "number",
      cell: ({ discordant }) => shown(discordant, (share) => formats.percentSigned(share, 2)),
    },
    {
      head: words.boundColumns.formula,
      kind: "number",
      cell: ({ formulaTotal }) => shown(formulaTotal, formats.count),
    },
    {
      head: words.boundColumns.exact,
      kind: "number",
      cell: ({ exactStays }) => <PeopleOr report={report} of={exactStays} />,
    },
  ];
  return (
    <DataTable
      report={report}
      caption={words.boundsCaption(title)}
      lead={words.boundsLead(
        planned === null ? null : formats.percentSigned(planned, 2),
        paired.input.discordant === null,
      )}
      columns={columns}
      groups={[{ rows: paired.values.bounds }]}
    />
  );
}
