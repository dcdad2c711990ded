import type { ReadingTime } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle, termsOf } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { CountsAndPercent } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";
import { figureName } from "../render-figures.ts";

/** Both measures by the minute of reading, as a chart with its data. */
export function ByMinutes({ report, times }: { report: Report; times: ReadingTime }) {
  const { time: words, grammar } = report.words;
  if (times.byMinutes.length === 0) return null;
  const terms = termsOf(report, times.analyte);
  const caption = words.minutesCaption(cellTitle(report, times));
  return (
    <>
      <p class="lead">{words.minutesLead(cellTitle(report, times))}</p>
      <Chart report={report} name={figureName("minutes", times)} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={[
            {
              head: words.dataColumns.minutes,
              heading: true,
              kind: "number",
              cell: ({ from, to }) => formats.statedRange(from, to),
            },
            { head: words.dataColumns.people, kind: "number", cell: ({ people }) => formats.count(people) },
            {
              head: grammar.sentence(terms.sensitivity),
              kind: "number",
              cell: (band) => <CountsAndPercent report={report} of={band.sensitivity} />,
            },
            {
              head: grammar.sentence(terms.specificity),
              kind: "number",
              cell: (band) => <CountsAndPercent report={report} of={band.specificity} />,
            },
          ]}
          groups={[{ rows: times.byMinutes, analyte: times.analyte }]}
        />
      </Chart>
    </>
  );
}
