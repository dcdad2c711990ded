import type { Comparison } from "../../evaluation/document.ts";
import { type Compared, sidesOf } from "../comparison-facts.ts";
import type { Report } from "../context.ts";
import { marginMarks } from "../figures/difference-strip.tsx";
import { differenceDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { termsOf } from "../names.ts";
import { EstimateHead, NumberInterval, PointsInterval, pText } from "../parts/numbers.tsx";
import { differenceStrips } from "../parts/strip-column.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";

interface DifferencesProps {
  readonly report: Report;
  readonly comparison: Comparison;
}

/** First less second, measure by measure, with zero and the margin on one scale. */
export function Differences({ report, comparison }: DifferencesProps) {
  const { comparisons: words } = report.words;
  const { measures } = comparison;
  const margins = measures.some(({ margin }) => margin !== null);
  return (
    <DataTable
      report={report}
      caption={words.differenceCaption(words.titled(comparison.title, comparison.id))}
      columns={columnsOf(report, comparison, margins)}
      groups={[{ rows: measures, analyte: comparison.analyte }]}
      note={words.differenceHowToRead(...sidesOf(report, comparison), margins)}
    />
  );
}

function columnsOf(report: Report, comparison: Comparison, margins: boolean): Column<Compared>[] {
  const { comparisons: words, grammar, page } = report.words;
  const { columns } = words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const terms = termsOf(report, comparison.analyte);
  const domain = differenceDomain(
    comparison.measures.map((one) => one.difference),
    comparison.measures.flatMap((one) => marginMarks(one.margin)),
  );
  const judged: Column<Compared>[] = [
    {
      head: columns.margin,
      kind: "number",
      cell: ({ margin }) =>
        margin === null ? "" : <span class="asked">{words.marginText(margin.margin, margin.kind)}</span>,
    },
    {
      head: columns.verdict,
      cell: ({ margin }) => (margin === null ? "" : <Verdict report={report} verdict={margin.verdict} />),
    },
  ];
  return [
    { head: columns.measure, heading: true, cell: (one) => grammar.sentence(terms[one.measure]) },
    {
      head: <EstimateHead sign={columns.difference} limits={limits} />,
      kind: "number",
      cell: (one) => <PointsInterval report={report} of={one.difference} margins={marginMarks(one.margin)} />,
    },
    differenceStrips(
      domain,
      (one: Compared) => one.difference,
      (one) => one.margin,
    ),
    ...(margins ? judged : []),
    { head: columns.pValue, kind: "number", cell: (one) => pText(one.pValue) },
    {
      head: <EstimateHead sign={columns.ratio} limits={limits} />,
      kind: "number",
      cell: (one) => <NumberInterval report={report} of={one.ratio} format={formats.ratio} />,
    },
  ];
}
