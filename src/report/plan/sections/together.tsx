import type { TogetherPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { criterionName, powerText } from "../names.ts";
import { PeopleOr, PlanNotes, shown } from "../parts.tsx";

/** How many people so that every primary criterion is met, and how much hangs on how they hang together. */
export function Together({ report }: PlanSectionProps) {
  const { together } = report.planning;
  return (
    <Section report={report} id="together">
      {together === null ? null : <Parts report={report} together={together} />}
    </Section>
  );
}

function Parts({ report, together }: { report: PlanReport; together: TogetherPlan }) {
  const { together: words } = report.words.plan;
  const { size, pairs } = together;
  const named = together.criteria.map((id) => criterionName(report, id));
  return (
    <>
      <p>{leadOf(report, named)}</p>
      {size === null ? null : <Sizes report={report} size={size} />}
      {pairs.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.pairsCaption}
          lead={words.pairsLead}
          columns={pairColumns(report)}
          groups={[{ rows: pairs }]}
          note={words.pairsNote}
        />
      )}
      <PlanNotes
        report={report}
        notes={[...together.notes, ...(size?.notes ?? []), ...pairs.flatMap(({ power }) => power.notes)]}
      />
    </>
  );
}

/** Whether the plan asks for all of them, or only for any. */
function leadOf({ planning: { plan }, words }: PlanReport, named: readonly string[]): string {
  const { together } = words.plan;
  const list = words.grammar.listed(named);
  return plan.decision.control === "all_must_pass"
    ? together.lead(words.grammar.sentence(list), powerText(plan.power))
    : together.leadOther(list);
}

type JointSize = NonNullable<TogetherPlan["size"]>;
interface SizeLine {
  readonly label: string;
  readonly independent: number | null;
  readonly guaranteed: number | null;
}

function Sizes({ report, size }: { report: PlanReport; size: JointSize }) {
  const { together: words } = report.words.plan;
  const { independent, guaranteed } = size.values;
  const rows = size.input.criteria.map(({ label }, at) => ({
    label,
    independent: independent.sizes[at]?.size.total ?? null,
    guaranteed: guaranteed.sizes[at]?.size.total ?? null,
  }));
  const headed = (head: string, power: number | null) => (
    <>
      {head}
      {power === null ? null : <span class="place">{words.eachPower(powerText(power))}</span>}
    </>
  );
  const columns: Column<SizeLine>[] = [
    { head: words.columns.criterion, heading: true, cell: ({ label }) => criterionTitle(report, label) },
    {
      head: headed(words.columns.independent, independent.eachPower),
      kind: "number",
      cell: (line) => <PeopleOr report={report} of={line.independent} />,
    },
    {
      head: headed(words.columns.guaranteed, guaranteed.eachPower),
      kind: "number",
      cell: (line) => <PeopleOr report={report} of={line.guaranteed} />,
    },
  ];
  const chance = (value: number | null) => (value === null ? null : formats.probability(value));
  return (
    <DataTable
      report={report}
      caption={words.caption}
      columns={columns}
      groups={[{ rows }]}
      note={words.note(chance(independent.together), chance(guaranteed.together))}
    />
  );
}

/** The label of a joint plan is the criterion's id where the plan has one of that name. */
function criterionTitle(report: PlanReport, label: string): string {
  return report.words.grammar.sentence(criterionName(report, label));
}

type Pair = TogetherPlan["pairs"][number];

function pairColumns(report: PlanReport): Column<Pair>[] {
  const { pairColumns: heads } = report.words.plan.together;
  const chance = (head: string, of: (pair: Pair) => number | null): Column<Pair> => ({
    head,
    kind: "number",
    cell: (pair) => shown(of(pair), formats.correlation),
  });
  return [
    {
      head: heads.pair,
      heading: true,
      cell: ({ first, second }) =>
        report.words.grammar.sentence(
          report.words.grammar.listed([criterionName(report, first), criterionName(report, second)]),
        ),
    },
    { head: heads.shared, kind: "number", cell: ({ shared }) => formats.count(shared) },
    {
      head: heads.correlation,
      kind: "number",
      cell: ({ power }) => {
        const { least, most } = power.values.correlation;
        const limits =
          least === null || most === null ? null : formats.range(formats.index(least), formats.index(most));
        return (
          <>
            {formats.index(power.input.correlation)}
            <span class="limits">{limits ?? ""}</span>
          </>
        );
      },
    },
    chance(heads.stated, ({ power }) => power.values.together.stated),
    chance(heads.independent, ({ power }) => power.values.together.independent),
    chance(heads.lowest, ({ power }) => power.values.together.lowest),
    chance(heads.highest, ({ power }) => power.values.together.highest),
  ];
}
