import type { CriterionPlan } from "../../../evaluation/plan/document.ts";
import { powerTeeth, type Tooth } from "../../../figures/power-teeth.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { AnalytePart } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import { whyNot } from "../answer-rows.ts";
import type { PlanReport } from "../context.ts";
import { planFigureName } from "../figure-names.ts";
import { criterionName, groupName, powerText } from "../names.ts";
import { PlanNotes } from "../parts.tsx";

interface Props {
  readonly report: PlanReport;
  readonly line: CriterionPlan;
  readonly place: number;
}

/** Most rows of the folded table: teeth that are far from the size are left out, and that is said. */
const MOST_TEETH = 60;

/** One criterion: its power over the number of people, the two sizes, and how the study may end. */
export function CriterionPart({ report, line, place }: Props) {
  const { criteria: words } = report.words.plan;
  const name = criterionName(report, line.criterion);
  const title = report.words.grammar.sentence(name);
  return (
    <AnalytePart analyte={line.analyte}>
      <h3>{title}</h3>
      <p>{explained(report, line)}</p>
      <Chart report={report} name={planFigureName("power", place, line.criterion)} label={words.chart(name)}>
        <Teeth report={report} line={line} name={name} />
      </Chart>
      <Outcomes report={report} line={line} name={name} />
      <PlanNotes report={report} notes={[...whyNot(line), ...(line.atSize?.notes ?? [])]} />
    </AnalytePart>
  );
}

/** First and for good, in sentences. */
function explained(report: PlanReport, line: CriterionPlan): string {
  const { criteria: words } = report.words.plan;
  const { first, stays, fewest } = line.size.values;
  const group = groupName(report, line.analyte, line.of);
  const wanted = powerText(line.power);
  const sentences: string[] = [];
  if (first.total !== null) sentences.push(words.first(first.total, group, wanted));
  if (first.total !== null && stays.total !== null) {
    sentences.push(
      first.total === stays.total ? words.same : words.stays(first.total, stays.total, first.allowed),
    );
  }
  if (fewest !== null) sentences.push(words.fewest(fewest));
  const clusters = line.clustered?.values ?? null;
  if (clusters?.designEffect != null && line.needed !== null) {
    sentences.push(
      words.clustered(
        formats.statistic(clusters.designEffect),
        line.needed,
        clusters.clusters,
        clusters.clusterSize === null ? null : formats.fixed(clusters.clusterSize, 0),
      ),
    );
  }
  return sentences.join(" ");
}

function Teeth({ report, line, name }: Omit<Props, "place"> & { name: string }) {
  const { criteria: words } = report.words.plan;
  const all = powerTeeth(line.curve).filter(({ allowed }) => allowed !== null);
  const middle = all.findIndex(({ to }) => to >= (line.size.values.stays.total ?? 0));
  const from = Math.max(0, Math.min(middle - MOST_TEETH / 2, all.length - MOST_TEETH));
  const rows = all.slice(from, from + MOST_TEETH);
  const columns: Column<Tooth>[] = [
    {
      head: words.teethColumns.allowed,
      heading: true,
      kind: "number",
      cell: ({ allowed }) => (allowed === null ? "" : formats.count(allowed)),
    },
    {
      head: words.teethColumns.people,
      kind: "number",
      cell: (tooth) =>
        tooth.from === tooth.to
          ? formats.count(tooth.from)
          : formats.range(formats.count(tooth.from), formats.count(tooth.to)),
    },
    {
      head: words.teethColumns.powerFrom,
      kind: "number",
      cell: ({ powerFrom }) => formats.percentSigned(powerFrom),
    },
    {
      head: words.teethColumns.powerTo,
      kind: "number",
      cell: ({ powerTo }) => formats.percentSigned(powerTo),
    },
  ];
  return (
    <DataTable
      report={report}
      caption={words.teethCaption(name)}
      columns={columns}
      groups={[{ rows }]}
      note={rows.length < all.length ? words.teethCut : words.teethNote}
    />
  );
}

interface Ending {
  readonly truth: string;
  readonly met: number | null;
  readonly undecided: number | null;
  readonly notMet: number | null;
}

function Outcomes({ report, line, name }: Omit<Props, "place"> & { name: string }) {
  const { criteria: words } = report.words.plan;
  const { verdicts } = report.words.codes;
  if (line.atSize === null) return null;
  const { input, values } = line.atSize;
  const { atThreshold, notMetAtThreshold } = values;
  const rest =
    atThreshold === null || notMetAtThreshold === null ? null : 1 - atThreshold - notMetAtThreshold;
  const rows: Ending[] = [
    {
      truth: words.ifExpected(input.expected),
      met: values.met,
      undecided: values.undecided,
      notMet: values.notMet,
    },
    {
      truth: words.ifThreshold(input.threshold),
      met: atThreshold,
      undecided: rest === null ? null : Math.max(0, rest),
      notMet: notMetAtThreshold,
    },
  ];
  const chance = (head: string, of: (row: Ending) => number | null): Column<Ending> => ({
    head,
    kind: "number",
    cell: (row) => {
      const value = of(row);
      return value === null ? "" : formats.probability(value);
    },
  });
  return (
    <DataTable
      report={report}
      caption={words.endingsCaption(name)}
      lead={words.endingsLead(
        input.total,
        groupName(report, line.analyte, line.of),
        results(report, line, values.needed),
        results(report, line, values.ruledOut),
      )}
      columns={[
        { head: words.endingsColumn, heading: true, cell: ({ truth }) => truth },
        chance(verdicts.met, ({ met }) => met),
        chance(verdicts.undecided, ({ undecided }) => undecided),
        chance(verdicts.not_met, ({ notMet }) => notMet),
      ]}
      groups={[{ rows }]}
    />
  );
}

/** Results in favour: right ones, valid ones, or those that an upper limit is not about. */
function results(report: PlanReport, line: CriterionPlan, inFavour: number | null): string | null {
  const { criteria: words } = report.words.plan;
  if (inFavour === null) return null;
  const invalid = line.measure === "invalid_rate";
  if (line.size.input.direction === "at_most")
    return invalid ? words.valid(inFavour) : words.against(inFavour);
  return invalid ? words.against(inFavour) : words.right(inFavour);
}
