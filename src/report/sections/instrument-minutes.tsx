import type { Intensity } from "../../evaluation/document.ts";
import * as formats from "../formats.ts";
import { instrumentFigure, instrumentTitle, readingText } from "../instrument-names.ts";
import { termsOf } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import type { InstrumentProps } from "./instrument-readings.tsx";

type Band = NonNullable<Intensity["distribution"]["minutes"]>["bands"][number];

/** Readings by the minute at which the device was read, by truth. */
export function InstrumentMinutes({ report, measured }: InstrumentProps) {
  const { instrument: words, grammar } = report.words;
  const { minutes } = measured.distribution;
  const name = instrumentFigure("reading-minutes", measured);
  if (minutes === null || !report.figures.has(name)) return null;
  const caption = words.minutesCaption(instrumentTitle(report, measured));
  const terms = termsOf(report, measured.analyte);
  const heads = words.truthColumns;
  const columns: Column<Band>[] = [
    {
      head: words.minuteColumns.minutes,
      heading: true,
      cell: ({ from, to }) => formats.statedRange(from, to),
    },
    {
      head: heads.truth,
      cell: ({ truth }) => grammar.sentence(truth === "positive" ? terms.positive : terms.negative),
    },
    { head: heads.readings, kind: "number", cell: ({ readings }) => formats.count(readings) },
    ...(["p25", "median", "p75"] as const).map(
      (quantile): Column<Band> => ({
        head: heads[quantile],
        kind: "number",
        cell: (band) => {
          const value = band[quantile];
          return value === null ? "" : readingText(value);
        },
      }),
    ),
  ];
  return (
    <details class="printed">
      <summary>{words.minutesTitle}</summary>
      <p>
        {words.minutesLead}{" "}
        {minutes.unknown === 0
          ? ""
          : words.minuteUnknown(formats.count(minutes.known), formats.count(minutes.unknown))}
      </p>
      <Chart report={report} name={name} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={columns}
          groups={[{ rows: minutes.bands.filter(({ readings }) => readings > 0) }]}
          long
        />
      </Chart>
      <p class="how">{words.minutesHow}</p>
    </details>
  );
}
