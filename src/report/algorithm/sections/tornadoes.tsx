import type { OutcomeTornado } from "../../../evaluation/algorithm/document.ts";
import { Chart } from "../../parts/chart.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmOf, channelTitle } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";
import { type NamedBar, namedBars, outcomeText, shownTornadoes } from "../tornado-names.ts";

/** Which uncertain number moves an outcome most: the leading algorithm's outcomes open, the others folded. */
export function Tornadoes({ report }: AlgorithmSectionProps) {
  const { tornado: words } = report.words.algorithm;
  const shown = shownTornadoes(report);
  if (shown.length === 0) return null;
  return (
    <>
      <h3>{words.sectionHeading}</h3>
      <p>{words.lead}</p>
      {shown.map(({ one, place, leads }) =>
        leads ? (
          <div key={place}>
            <p class="lead">
              <b>{report.words.grammar.closed(report.words.grammar.sentence(headingOf(report, one)))}</b>
            </p>
            <OneTornado report={report} one={one} place={place} />
          </div>
        ) : (
          <OpenOrFolded key={place} report={report} title={headingOf(report, one)} open={false}>
            <OneTornado report={report} one={one} place={place} />
          </OpenOrFolded>
        ),
      )}
    </>
  );
}

function headingOf(report: AlgorithmReport, { algorithm, channel, moved }: OutcomeTornado): string {
  const { tornado: words } = report.words.algorithm;
  return words.heading(
    algorithmOf(report, algorithm),
    report.words.grammar.inline(channelTitle(report, channel)),
    words.outcomes[moved.input.outcome],
  );
}

function OneTornado(props: { report: AlgorithmReport; one: OutcomeTornado; place: number }) {
  const { report, one, place } = props;
  const { tornado: words } = report.words.algorithm;
  const format = outcomeText(one);
  const heading = headingOf(report, one);
  return (
    <>
      <Chart
        report={report}
        name={algorithmFigureName("tornado", place, `${one.algorithm}-${one.moved.input.outcome}`)}
        label={heading}
      >
        <DataTable
          report={report}
          caption={words.caption(heading)}
          columns={[
            { head: words.columns.input, heading: true, cell: ({ input }: NamedBar) => input },
            { head: words.columns.low, kind: "number", cell: ({ low }) => low },
            { head: words.columns.atLow, kind: "number", cell: ({ atLow }) => format(atLow) },
            { head: words.columns.high, kind: "number", cell: ({ high }) => high },
            { head: words.columns.atHigh, kind: "number", cell: ({ atHigh }) => format(atHigh) },
          ]}
          groups={[{ rows: namedBars(report, one) }]}
        />
      </Chart>
      <AlgorithmNotes report={report} notes={one.moved.notes} />
    </>
  );
}
