import type { Intensity } from "../../evaluation/document.ts";
import * as formats from "../formats.ts";
import { instrumentFigure, instrumentTitle } from "../instrument-names.ts";
import { Chart } from "../parts/chart.tsx";
import { PercentInterval, proportionText } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import type { InstrumentProps } from "./instrument-readings.tsx";

type Group = NonNullable<Intensity["calibration"]>["groups"][number];

/** Where the reading is a probability: whether it means what it says. */
export function InstrumentCalibration({ report, measured }: InstrumentProps) {
  const { instrument: words, page } = report.words;
  const { calibration } = measured;
  if (calibration === null) return null;
  const { overall, recalibration, brier, groups } = calibration;
  const caption = words.calibrationCaption(instrumentTitle(report, measured));
  const share = (value: number | null) => (value === null ? "" : formats.percent(value));
  const columns: Column<Group>[] = [
    {
      head: words.calibrationColumns.given,
      heading: true,
      kind: "number",
      cell: ({ from, to }) => (from === null || to === null ? "" : formats.range(share(from), share(to))),
    },
    { head: words.calibrationColumns.people, kind: "number", cell: ({ people }) => formats.count(people) },
    { head: words.calibrationColumns.mean, kind: "number", cell: ({ predicted }) => share(predicted) },
    {
      head: words.calibrationColumns.observed,
      kind: "number",
      cell: ({ observed }) => <PercentInterval report={report} of={observed} />,
    },
  ];
  const { slope } = recalibration;
  const limits =
    slope.lower === null || slope.upper === null
      ? ""
      : ` (${words.span(formats.statistic(slope.lower), formats.statistic(slope.upper))})`;
  return (
    <>
      <h4>{words.calibrationTitle}</h4>
      <p>
        {words.calibrationLead({
          predicted:
            overall.predicted === null ? page.notEstimable : formats.percentSigned(overall.predicted),
          observed: proportionText(report, overall.observed),
          slope: slope.value === null ? null : `${formats.statistic(slope.value)}${limits}`,
        })}{" "}
        {brier.score === null || brier.scaled === null
          ? ""
          : words.scores(formats.fixed(brier.score, 3), formats.percentSigned(brier.scaled))}
      </p>
      <Chart report={report} name={instrumentFigure("calibration", measured)} label={caption}>
        <DataTable report={report} caption={caption} columns={columns} groups={[{ rows: groups }]} />
      </Chart>
      <p class="how">{words.calibrationHow}</p>
    </>
  );
}
