import type { StoppingPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport } from "../context.ts";
import { planFigureName } from "../figure-names.ts";
import { criterionOf, demandOf, statedSigned } from "../names.ts";
import { shown } from "../parts.tsx";
import { type DrawnRule, ruleTitle } from "../render-plan-figures.ts";

interface Props {
  readonly report: PlanReport;
  readonly plan: StoppingPlan;
  readonly rule: DrawnRule;
  readonly place: number;
}

/** One rule: its looks as a drawing and a table, and what becomes of a good and of a bad kit. */
export function StoppingRule({ report, plan, rule, place }: Props) {
  const { stopping: words } = report.words.plan;
  const title = ruleTitle(report, plan, rule);
  return (
    <>
      <h4>{words.rules[rule.name]}</h4>
      <Chart
        report={report}
        name={planFigureName("looks", place, `${plan.stopping}-${rule.name}`)}
        label={title}
      >
        <Looks report={report} rule={rule} title={title} />
      </Chart>
      <LooksInWords report={report} rule={rule} />
      <Confirmed report={report} plan={plan} rule={rule} title={title} />
    </>
  );
}

/** From so many looks on their sentences stand in a list. */
const MANY_LOOKS = 4;

/** What to do at each look, as a reader would say it. */
function LooksInWords({ report, rule: { looks } }: Pick<Props, "report" | "rule">) {
  const { stopping: words } = report.words.plan;
  const sentences = looks.map(({ total, passFrom, failAt }, at) =>
    words.look(
      total,
      passFrom === null ? null : total - passFrom,
      failAt === null ? null : total - failAt,
      at === looks.length - 1,
    ),
  );
  if (sentences.length < MANY_LOOKS) return <p>{sentences.join(" ")}</p>;
  return (
    <ul class="looks">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}

type Look = DrawnRule["looks"][number];

function Looks({ report, rule, title }: Pick<Props, "report" | "rule"> & { title: string }) {
  const { stopping: words } = report.words.plan;
  const counted = (head: string, of: (look: Look) => number | null): Column<Look> => ({
    head,
    kind: "number",
    cell: (look) => shown(of(look), formats.count),
  });
  return (
    <DataTable
      report={report}
      caption={words.looksCaption(title)}
      columns={[
        {
          head: words.columns.people,
          heading: true,
          kind: "number",
          cell: ({ total }) => formats.count(total),
        },
        counted(words.columns.passes, ({ total, passFrom }) => (passFrom === null ? null : total - passFrom)),
        counted(words.columns.fails, ({ total, failAt }) => (failAt === null ? null : total - failAt)),
      ]}
      groups={[{ rows: rule.looks }]}
    />
  );
}

type Confirmed = StoppingPlan["confirmed"][number]["rule"];
type Truth = Confirmed["values"]["truths"][number];

/** How often a kit passes, by what is true of it: worked out exactly, and simulated beside it. */
function Confirmed({ report, plan, rule, title }: Omit<Props, "place"> & { title: string }) {
  const { stopping: words } = report.words.plan;
  const found = plan.confirmed.find(({ name }) => name === rule.name)?.rule;
  if (found === undefined) return null;
  const columns: Column<Truth>[] = [
    {
      head: words.truthColumns.truth,
      heading: true,
      cell: ({ truth }) => truthText(report, truth, rule, plan),
    },
    {
      head: words.truthColumns.pass,
      kind: "number",
      cell: ({ pass }) => <b>{shown(pass, formats.correlation)}</b>,
    },
    {
      head: words.truthColumns.simulated,
      kind: "number",
      cell: ({ simulated: { pass, lower, upper } }) => (
        <>
          {shown(pass, formats.correlation)}
          <span class="limits">
            {lower === null || upper === null
              ? ""
              : formats.range(formats.correlation(lower), formats.correlation(upper))}
          </span>
        </>
      ),
    },
    {
      head: words.truthColumns.stopsAtFirst,
      kind: "number",
      cell: ({ stopsAt }) => shown(stopsAt[0]?.probability ?? null, formats.probability),
    },
    {
      head: words.truthColumns.people,
      kind: "number",
      cell: ({ expectedTotal }) => shown(expectedTotal, (value) => formats.fixed(value, 1)),
    },
    {
      head: words.truthColumns.simulatedPeople,
      kind: "number",
      cell: ({ simulated }) => shown(simulated.expectedTotal, (value) => formats.fixed(value, 1)),
    },
  ];
  return (
    <DataTable
      report={report}
      caption={words.truthCaption(title)}
      columns={columns}
      groups={[{ rows: found.values.truths }]}
      note={words.truthNote(found.options.draws)}
    />
  );
}

function truthText(report: PlanReport, truth: number, rule: DrawnRule, plan: StoppingPlan): string {
  const { truthKinds } = report.words.plan.stopping;
  const criterion = criterionOf(report, plan.criterion);
  const kinds = [
    ...(truth === rule.expected ? [truthKinds.expected] : []),
    ...(truth === rule.unacceptable ? [truthKinds.unacceptable] : []),
    ...(criterion !== undefined && truth === demandOf(criterion).threshold ? [truthKinds.criterion] : []),
  ];
  return [statedSigned(truth), ...kinds].join(", ");
}
