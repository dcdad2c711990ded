import type { ComponentChildren } from "preact";
import type { Accuracy } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle, termsOf } from "../names.ts";
import { Counts, EstimateHead, NumberInterval, PercentInterval, PercentLimits } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";

type Proportion = Accuracy["sensitivity"];
interface CellProps {
  readonly report: Report;
  readonly cell: Accuracy;
  /** Whether to say how the table is read: once on the page is enough. */
  readonly explained: boolean;
}
interface MeasureLine {
  readonly name: string;
  readonly of: Proportion;
  /** The same by the Wilson score interval, where it is given. */
  readonly wilson: Proportion | null;
}

/** Proportions with the chosen interval, the Wilson interval beside it for the two main ones. */
export function Measures({ report, cell, explained }: CellProps) {
  const { accuracy: words, codes } = report.words;
  const { level, method } = report.evaluation.study.interval;
  return (
    <DataTable
      report={report}
      caption={words.measuresCaption(cellTitle(report, cell))}
      {...(explained ? { lead: words.measuresLead(level) } : {})}
      columns={[
        {
          head: words.columns.measure,
          heading: true,
          cell: (line: MeasureLine) => report.words.grammar.sentence(line.name),
        },
        { head: words.columns.counts, kind: "number", cell: (line) => <Counts of={line.of} /> },
        {
          head: (
            <EstimateHead
              sign={words.columns.estimate}
              limits={words.columns.interval(codes.intervalsShort[method])}
            />
          ),
          kind: "number",
          cell: (line) => <PercentInterval report={report} of={line.of} />,
        },
        {
          head: words.columns.wilson,
          kind: "number",
          cell: (line) => (line.wilson === null ? "" : <PercentLimits report={report} of={line.wilson} />),
        },
      ]}
      groups={[{ rows: measureLines(report, cell) }]}
    />
  );
}

function measureLines(report: Report, cell: Accuracy): MeasureLine[] {
  const { accuracy: words } = report.words;
  const terms = termsOf(report, cell.analyte);
  const own = cell.ownPredictiveValues;
  return [
    { name: terms.sensitivity, of: cell.sensitivity, wilson: cell.wilson.sensitivity },
    { name: terms.specificity, of: cell.specificity, wilson: cell.wilson.specificity },
    { name: terms.overall, of: cell.overallAccuracy, wilson: null },
    { name: words.apparent, of: cell.apparentPrevalence, wilson: null },
    { name: terms.prevalence, of: cell.referencePrevalence, wilson: null },
    ...(own === null
      ? []
      : [
          { name: words.ppv, of: own.ppv, wilson: null },
          { name: words.npv, of: own.npv, wilson: null },
        ]),
  ];
}

interface RatioLine {
  readonly name: string;
  readonly value: ComponentChildren;
}

/** Likelihood ratios, diagnostic odds ratio and Youden's index: only where the reference is one. */
export function Ratios({ report, cell, explained }: CellProps) {
  const { accuracy: words, grammar } = report.words;
  const line = (name: string, of: formats.Limits, format: (value: number) => string): RatioLine => ({
    name,
    value: <NumberInterval report={report} of={of} format={format} />,
  });
  const rows = [
    line(words.positiveLikelihoodRatio, cell.positiveLikelihoodRatio, formats.ratio),
    line(words.negativeLikelihoodRatio, cell.negativeLikelihoodRatio, formats.ratio),
    line(words.diagnosticOddsRatio, cell.diagnosticOddsRatio, formats.ratio),
    line(termsOf(report, cell.analyte).youden, cell.youden, formats.index),
  ];
  return (
    <DataTable
      report={report}
      caption={words.ratiosCaption(cellTitle(report, cell))}
      columns={[
        { head: words.columns.measure, heading: true, cell: (row) => grammar.sentence(row.name) },
        {
          head: <EstimateHead sign={words.columns.value} limits={words.columns.limits} />,
          kind: "number",
          cell: (row) => row.value,
        },
      ]}
      groups={[{ rows }]}
      {...(explained ? { note: words.ratiosHowToRead } : {})}
    />
  );
}
