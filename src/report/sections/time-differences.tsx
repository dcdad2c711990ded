import type { ReadingTime } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { differenceDomain } from "../figures/strip-scale.ts";
import { cellTitle, termsOf } from "../names.ts";
import { EstimateHead, PointsInterval, pText } from "../parts/numbers.tsx";
import { differenceStrips } from "../parts/strip-column.tsx";
import { DataTable } from "../parts/table.tsx";

type Difference = ReadingTime["differences"][number];

/** Outside the window less inside it, early, late and both together. */
export function TimeDifferences({ report, times }: { report: Report; times: ReadingTime }) {
  const { time: words, grammar, page } = report.words;
  const { differencesColumns: columns } = words;
  if (times.differences.length === 0) return null;
  const terms = termsOf(report, times.analyte);
  const kinds = [...new Set(times.differences.map(({ outside }) => outside))];
  return (
    <DataTable
      report={report}
      caption={words.differencesCaption(cellTitle(report, times))}
      lead={words.differencesLead(cellTitle(report, times))}
      columns={[
        { head: columns.measure, heading: true, cell: (one) => grammar.sentence(terms[one.measure]) },
        {
          head: (
            <EstimateHead
              sign={columns.difference}
              limits={page.interval(report.evaluation.study.interval.level)}
            />
          ),
          kind: "number",
          cell: (one) => <PointsInterval report={report} of={one.difference} />,
        },
        differenceStrips(
          differenceDomain(times.differences.map((one) => one.difference)),
          (one: Difference) => one.difference,
        ),
        { head: columns.pValue, kind: "number", cell: (one) => pText(one.pValue) },
      ]}
      groups={kinds.map((kind) => ({
        heading: grammar.sentence(words.outside[kind]),
        analyte: times.analyte,
        rows: times.differences.filter(({ outside }) => outside === kind),
      }))}
      note={words.differencesHowToRead}
    />
  );
}
