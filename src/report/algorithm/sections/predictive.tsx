import type { AlgorithmPredictive } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmOf, kitName, leadingLine } from "../names.ts";
import { Share } from "../parts.tsx";

/** What a positive result is worth as prevalence changes, after each reactive result. */
export function PredictiveValues({ report }: AlgorithmSectionProps) {
  const { predictive: words } = report.words.algorithm;
  const leading = leadingLine(report)?.algorithm;
  const { predictive } = report.algorithms;
  const open = predictive.some(({ algorithm }) => algorithm === leading) ? leading : predictive[0]?.algorithm;
  return (
    <Section report={report} id="predictive">
      <p>{words.lead}</p>
      {predictive.map((one, place) => (
        <OpenOrFolded
          key={one.algorithm}
          report={report}
          title={algorithmOf(report, one.algorithm)}
          open={one.algorithm === open}
        >
          <OneCurve report={report} one={one} place={place} />
        </OpenOrFolded>
      ))}
    </Section>
  );
}

interface Props {
  readonly report: AlgorithmReport;
  readonly one: AlgorithmPredictive;
  readonly place: number;
}

function OneCurve({ report, one, place }: Props) {
  const { predictive: words } = report.words.algorithm;
  const title = algorithmOf(report, one.algorithm);
  return (
    <>
      <p>{reached(report, one)}</p>
      <Chart
        report={report}
        name={algorithmFigureName("stepwise", place, one.algorithm)}
        label={words.chart(title)}
      >
        <CurveTable report={report} one={one} />
      </Chart>
      <p class="how">{words.howToRead}</p>
    </>
  );
}

/** From which prevalence on the target is reached, as stated and if independent. */
function reached(report: AlgorithmReport, { reachesTarget }: AlgorithmPredictive): string {
  const { predictive: words } = report.words.algorithm;
  const { target } = report.algorithms.answer;
  if (target === null) return words.noTarget;
  const share = (value: number | null) =>
    value === null ? null : `${formats.significantPercent(value)}${formats.THIN}%`;
  return words.reached(
    `${formats.statedPercent(target)}${formats.THIN}%`,
    share(reachesTarget.stated),
    share(reachesTarget.independent),
  );
}

type Point = AlgorithmPredictive["points"][number];
/** Rows of the folded table. */
const ROWS = 30;

function CurveTable({ report, one }: Omit<Props, "place">) {
  const { predictive: words } = report.words.algorithm;
  const step = Math.max(1, Math.ceil(one.points.length / ROWS));
  const rows = one.points.filter((_, at) => at % step === 0 || at === one.points.length - 1);
  const share = (head: string, of: (point: Point) => number | null): Column<Point> => ({
    head,
    kind: "number",
    cell: (point) => <Share report={report} of={of(point)} />,
  });
  const after = one.tests.map(({ kit }, at) =>
    share(words.after(at + 1, kitName(report, kit)), ({ afterReactive }) => afterReactive[at] ?? null),
  );
  return (
    <DataTable
      report={report}
      caption={words.tableCaption(algorithmOf(report, one.algorithm))}
      columns={[
        {
          head: words.columns.prevalence,
          heading: true,
          kind: "number",
          cell: ({ prevalence }) => formats.significantPercent(prevalence),
        },
        ...after,
        share(words.columns.ppv, ({ ppv }) => ppv),
        share(words.columns.independent, ({ independentPpv }) => independentPpv),
        share(words.columns.npv, ({ npv }) => npv),
      ]}
      groups={[{ rows }]}
    />
  );
}
