import type { WhatIfPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { planFigureName } from "../figure-names.ts";
import { criterionOf, demandOf, demandText, groupName, measureOf, statedSigned } from "../names.ts";
import { PlanNotes } from "../parts.tsx";

/** People needed, and to be enrolled, if other values were expected, demanded or found. */
export function WhatIf({ report }: PlanSectionProps) {
  const { whatIf: words } = report.words.plan;
  return (
    <Section report={report} id="whatif">
      <p>{words.lead}</p>
      {report.planning.whatIf.map((line, place) => (
        <OneGrid key={line.criterion} report={report} line={line} place={place} />
      ))}
    </Section>
  );
}

interface Props {
  readonly report: PlanReport;
  readonly line: WhatIfPlan;
  readonly place: number;
}

type Cell = WhatIfPlan["grid"]["values"]["cells"][number];

function OneGrid({ report, line, place }: Props) {
  const { whatIf: words } = report.words.plan;
  const criterion = criterionOf(report, line.criterion);
  if (criterion === undefined) return null;
  const name = measureOf(report, criterion);
  return (
    <>
      <h3>{report.words.grammar.sentence(name)}</h3>
      <Chart
        report={report}
        name={planFigureName("what-if", place, line.criterion)}
        label={words.chart(name)}
      >
        <p class="how">{words.chartData}</p>
      </Chart>
      <Needed report={report} line={line} />
      <Enrolled report={report} line={line} />
      <PlanNotes report={report} notes={line.grid.notes} />
    </>
  );
}

/** One of five shades by size, on a ratio scale: the more people the darker. */
function heatOf(people: number | null, all: readonly number[]): string {
  if (people === null || all.length < 2) return "heat-0";
  const [least, most] = [Math.min(...all), Math.max(...all)];
  if (most <= least) return "heat-0";
  const place = Math.log(people / least) / Math.log(most / least);
  return `heat-${Math.min(4, Math.floor(place * 5))}`;
}

function Heated(props: { people: number | null; all: readonly number[]; own: boolean; none: string }) {
  const { people, all, own, none } = props;
  if (people === null) return <span class="absent">{none}</span>;
  return <span class={`${heatOf(people, all)}${own ? " own" : ""}`}>{formats.count(people)}</span>;
}

function Needed({ report, line }: Omit<Props, "place">) {
  const { whatIf: words } = report.words.plan;
  const { cells } = line.grid.values;
  const criterion = criterionOf(report, line.criterion);
  if (criterion === undefined) return null;
  const own = demandOf(criterion);
  const { expected, thresholds } = line.grid.input;
  const all = cells.flatMap(({ stays }) => (stays === null ? [] : [stays]));
  const cellOf = (truth: number, threshold: number): Cell | undefined =>
    cells.find((cell) => cell.expected === truth && cell.threshold === threshold);
  const columns: Column<number>[] = [
    { head: words.expected, heading: true, cell: (truth) => statedSigned(truth) },
    ...thresholds.map(
      (threshold): Column<number> => ({
        head: demandText(report, own.direction, threshold),
        kind: "number",
        cell: (truth) => (
          <Heated
            people={cellOf(truth, threshold)?.stays ?? null}
            all={all}
            own={truth === criterion.expected && threshold === own.threshold}
            none={words.never}
          />
        ),
      }),
    ),
  ];
  const of =
    report.planning.criteria.find((one) => one.criterion === line.criterion)?.of ?? line.grid.input.of;
  const group = groupName(report, criterion.analyte, of);
  return (
    <div class="heated">
      <DataTable
        report={report}
        caption={words.neededCaption(measureOf(report, criterion))}
        lead={words.neededLead(group)}
        columns={columns}
        groups={[{ rows: expected }]}
        note={words.neededNote}
      />
    </div>
  );
}

/** People to enrol by what is expected and by prevalence, for the criterion as it stands. */
function Enrolled({ report, line }: Omit<Props, "place">) {
  const { whatIf: words } = report.words.plan;
  const criterion = criterionOf(report, line.criterion);
  if (criterion === undefined || line.grid.input.prevalences.length === 0) return null;
  const { direction, threshold } = demandOf(criterion);
  const rows = line.grid.values.cells.filter((cell) => cell.threshold === threshold);
  const all = rows.flatMap(({ enrol }) =>
    enrol.flatMap(({ assured }) => (assured === null ? [] : [assured])),
  );
  const columns: Column<Cell>[] = [
    {
      head: words.expected,
      heading: true,
      cell: ({ expected }) => (expected === null ? "" : statedSigned(expected)),
    },
    ...line.grid.input.prevalences.map(
      (prevalence, at): Column<Cell> => ({
        head: words.prevalence(formats.percentSigned(prevalence)),
        kind: "number",
        cell: ({ enrol }) => (
          <Heated people={enrol[at]?.assured ?? null} all={all} own={false} none={words.never} />
        ),
      }),
    ),
  ];
  return (
    <div class="heated">
      <DataTable
        report={report}
        caption={words.enrolledCaption(measureOf(report, criterion))}
        lead={words.enrolledLead(demandText(report, direction, threshold), line.grid.options.assurance)}
        columns={columns}
        groups={[{ rows }]}
      />
    </div>
  );
}
