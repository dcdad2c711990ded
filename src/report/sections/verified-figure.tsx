import type { Verification } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { Chart } from "../parts/chart.tsx";
import { PercentInterval } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { askedName, criterionFigure } from "../reference-names.ts";

/** An odds ratio: "1/4", "2.5". */
export function oddsText(value: number): string {
  const short = (ratio: number) => formats.stated(Number(ratio.toPrecision(3)));
  return value < 1 ? `1/${short(1 / value)}` : short(value);
}

interface Props {
  readonly report: Report;
  readonly partly: Verification;
  readonly one: Verification["criteria"][number];
}

/** The corrected measure over the odds ratio of verification, with its points as data. */
export function VerifiedFigure({ report, partly, one }: Props) {
  const { reference: words } = report.words;
  const caption = words.curveCaption(askedName(report, one));
  const figure = criterionFigure("verified", partly, one.criterion);
  if (!report.figures.has(figure)) return null;
  return (
    <>
      <p class="map-title">{report.words.grammar.sentence(askedName(report, one))}</p>
      <Chart report={report} name={figure} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={[
            {
              head: words.curveData.odds,
              heading: true,
              kind: "number",
              cell: ({ oddsRatio }) => (oddsRatio === null ? "" : oddsText(oddsRatio)),
            },
            {
              head: words.curveData.estimate,
              kind: "number",
              cell: ({ estimate }) => (
                <PercentInterval report={report} of={estimate} threshold={one.threshold} />
              ),
            },
            {
              head: words.curveData.verdict,
              cell: ({ verdict }) => <Verdict report={report} verdict={verdict} />,
            },
          ]}
          groups={[{ rows: one.axes.both.points }]}
        />
      </Chart>
      <p class="how">{[words.curveHow(partly.oddsRatio.stated), ...sideTexts(report, one)].join(" ")}</p>
    </>
  );
}

/** Where the verdict would change if verification hung on the condition among one result only. */
function sideTexts(report: Report, { axes }: Props["one"]): string[] {
  const { reference: words } = report.words;
  return (["reactive", "nonreactive"] as const).flatMap((axis) => {
    const { borders, holds } = axes[axis];
    if (borders.length === 0 || holds.from === null || holds.to === null) return [];
    return [words.oneResult(axis, oddsText(holds.from), oddsText(holds.to))];
  });
}
