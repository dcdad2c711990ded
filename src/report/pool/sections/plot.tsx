import type { Estimate } from "../../../core/estimate.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { NumberInterval, PercentInterval } from "../../parts/numbers.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { SUMMARY_PLOT } from "../figure-names.ts";
import { PoolNotes } from "../parts.tsx";

type Named = readonly [name: string, value: Estimate];
interface Point {
  readonly study: string;
  readonly people: number;
  readonly sensitivity: Estimate;
  readonly specificity: Estimate;
  readonly drawnSensitivity: Estimate;
  readonly drawnSpecificity: Estimate;
}

/** Both measures at once: studies, summary point, regions, curve; then ratios and the model in figures. */
export function Plot({ report }: PoolSectionProps) {
  const { plot: words } = report.words.pool;
  const { bivariate } = report.pooling;
  return (
    <Section report={report} id="plot">
      <p>{words.lead}</p>
      <Chart report={report} name={SUMMARY_PLOT} label={words.chart}>
        <DataTable
          report={report}
          caption={words.caption}
          columns={pointColumns(report)}
          groups={[{ rows: pointsOf(report) }]}
          note={words.note}
        />
      </Chart>
      <Values
        report={report}
        lead={words.ratiosLead}
        caption={words.ratiosCaption}
        heads={[words.ratioColumns.measure, words.ratioColumns.value]}
        rows={ratiosOf(report)}
        format={formats.ratio}
      />
      <details class="printed">
        <summary>{words.curveTitle}</summary>
        <Values
          report={report}
          caption={words.curveCaption}
          heads={[words.curveColumns.parameter, words.curveColumns.value]}
          rows={parametersOf(report)}
          format={formats.statistic}
        />
      </details>
      <PoolNotes report={report} notes={bivariate.notes} />
    </Section>
  );
}

function Values(props: {
  report: PoolReport;
  lead?: string;
  caption: string;
  heads: readonly [string, string];
  rows: readonly Named[];
  format: (value: number) => string;
}) {
  const { report, lead, caption, heads, rows, format } = props;
  return (
    <DataTable
      report={report}
      caption={caption}
      {...(lead === undefined ? {} : { lead })}
      columns={[
        { head: heads[0], heading: true, cell: ([name]: Named) => name },
        {
          head: heads[1],
          kind: "number",
          cell: ([, of]: Named) => <NumberInterval report={report} of={of} format={format} />,
        },
      ]}
      groups={[{ rows }]}
    />
  );
}

function ratiosOf({ pooling, words }: PoolReport): Named[] {
  const { ratios } = pooling.bivariate.values;
  return (["positive", "negative", "diagnosticOdds"] as const).map((name) => [
    words.pool.plot.ratios[name],
    ratios[name],
  ]);
}

function parametersOf({ pooling, words }: PoolReport): Named[] {
  const { parameters } = words.pool.plot;
  const { betweenStudies, hierarchical } = pooling.bivariate.values;
  const named: Named[] = [
    [parameters.sdSensitivity, betweenStudies.sensitivity],
    [parameters.sdSpecificity, betweenStudies.specificity],
    [parameters.correlation, betweenStudies.correlation],
    [parameters.shape, hierarchical.shape],
    [parameters.accuracy, hierarchical.accuracy],
    [parameters.threshold, hierarchical.threshold],
  ];
  return named.filter(([, { value }]) => value !== null);
}

function pointsOf({ pooling }: PoolReport): Point[] {
  const none = { value: null, lower: null, upper: null };
  return pooling.studies.map(({ study, sensitivity, specificity }, at) => {
    const drawn = pooling.bivariate.values.shrunken[at];
    return {
      study,
      people: sensitivity.total + specificity.total,
      sensitivity,
      specificity,
      drawnSensitivity: drawn?.sensitivity ?? none,
      drawnSpecificity: drawn?.specificity ?? none,
    };
  });
}

function pointColumns(report: PoolReport): Column<Point>[] {
  const { columns } = report.words.pool.plot;
  const share = (head: string, of: (point: Point) => Estimate): Column<Point> => ({
    head,
    kind: "number",
    cell: (point) => (of(point).value === null ? "" : <PercentInterval report={report} of={of(point)} />),
  });
  return [
    { head: columns.study, heading: true, cell: ({ study }) => study },
    { head: columns.people, kind: "number", cell: ({ people }) => formats.count(people) },
    share(columns.sensitivity, ({ sensitivity }) => sensitivity),
    share(columns.shrunkenSensitivity, ({ drawnSensitivity }) => drawnSensitivity),
    share(columns.specificity, ({ specificity }) => specificity),
    share(columns.shrunkenSpecificity, ({ drawnSpecificity }) => drawnSpecificity),
  ];
}
