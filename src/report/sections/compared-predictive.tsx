import type { Comparison } from "../../evaluation/document.ts";
import { sidesOf } from "../comparison-facts.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { EstimateHead, NumberInterval, PointsInterval, pText } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";

/** Predictive values of both sides, where the sample's own prevalence is the programme's. */
export function ComparedPredictive({ report, comparison }: { report: Report; comparison: Comparison }) {
  const { comparisons: words, grammar, page } = report.words;
  const { columns } = words;
  if (comparison.predictive.length === 0) return null;
  const limits = page.interval(report.evaluation.study.interval.level);
  const share = (value: number | null) =>
    value === null ? <span class="absent">{page.notEstimable}</span> : <b>{formats.percent(value)}</b>;
  const [first, second] = sidesOf(report, comparison);
  return (
    <DataTable
      report={report}
      caption={words.predictiveCaption(words.titled(comparison.title, comparison.id))}
      lead={words.predictiveLead}
      columns={[
        { head: columns.measure, heading: true, cell: (one) => grammar.sentence(words[one.measure]) },
        { head: words.percentOf(first), kind: "number", cell: (one) => share(one.first) },
        { head: words.percentOf(second), kind: "number", cell: (one) => share(one.second) },
        {
          head: <EstimateHead sign={columns.difference} limits={limits} />,
          kind: "number",
          cell: (one) => <PointsInterval report={report} of={one.difference} />,
        },
        {
          head: <EstimateHead sign={columns.ratio} limits={limits} />,
          kind: "number",
          cell: (one) => <NumberInterval report={report} of={one.ratio} format={formats.ratio} />,
        },
        { head: columns.pValue, kind: "number", cell: (one) => pText(one.pValue) },
      ]}
      groups={[{ rows: comparison.predictive, analyte: comparison.analyte }]}
    />
  );
}
