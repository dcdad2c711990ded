import type { Comparison } from "../../evaluation/document.ts";
import { type Compared, sidesOf } from "../comparison-facts.ts";
import type { Report } from "../context.ts";
import { stripDomain } from "../figures/strip-scale.ts";
import { TwoByTwo } from "../figures/two-by-two.tsx";
import { speaksOfAgreement, termsOf } from "../names.ts";
import { Counts, EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { NARROW_STRIP, shareStrips } from "../parts/strip-column.tsx";
import { DataTable } from "../parts/table.tsx";

interface MeasureProps {
  readonly report: Report;
  readonly comparison: Comparison;
  readonly one: Compared;
}

/** One measure on both sides: the same people crossed by right and wrong, and both estimates as strips. */
export function ComparedMeasure({ report, comparison, one }: MeasureProps) {
  const { grammar } = report.words;
  return (
    <>
      <h4>{grammar.sentence(termsOf(report, comparison.analyte)[one.measure])}</h4>
      <div class="beside">
        {one.paired === null ? null : <Paired report={report} comparison={comparison} one={one} />}
        <Sides report={report} comparison={comparison} one={one} />
      </div>
    </>
  );
}

function Paired({ report, comparison, one }: MeasureProps) {
  const { comparisons: words, grammar, page } = report.words;
  if (one.paired === null) return null;
  const terms = termsOf(report, comparison.analyte);
  const { both, firstOnly, secondOnly, neither } = one.paired;
  const [first, second] = sidesOf(report, comparison);
  const caption = words.pairedCaption(terms[one.measure], titleOf(report, comparison));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(caption)}>
      <TwoByTwo
        caption={caption}
        row={grammar.sentence(first)}
        column={grammar.sentence(second)}
        answers={[terms.right, terms.wrong]}
        counts={[both, firstOnly, secondOnly, neither]}
        notes={[words.cells.both, words.cells.only(first), words.cells.only(second), words.cells.neither]}
        all={words.all}
      />
    </section>
  );
}

/** A caption must be unique on the page: two comparisons may have one title. */
function titleOf(report: Report, comparison: Comparison): string {
  return report.words.comparisons.titled(comparison.title, comparison.id);
}

function Sides({ report, comparison, one }: MeasureProps) {
  const { comparisons: words, grammar, page } = report.words;
  const [first, second] = sidesOf(report, comparison);
  const terms = termsOf(report, comparison.analyte);
  const { columns } = words;
  const rows = [
    { name: first, of: one.first },
    { name: second, of: one.second },
  ];
  return (
    <DataTable
      report={report}
      caption={words.sidesCaption(terms[one.measure], titleOf(report, comparison))}
      columns={[
        { head: columns.side, heading: true, cell: (row) => grammar.sentence(row.name) },
        {
          head: speaksOfAgreement(report, comparison.analyte) ? columns.countsAgreement : columns.counts,
          kind: "number",
          cell: (row) => <Counts of={row.of} />,
        },
        {
          head: (
            <EstimateHead
              sign={columns.estimate}
              limits={page.interval(report.evaluation.study.interval.level)}
            />
          ),
          kind: "number",
          cell: (row) => <PercentInterval report={report} of={row.of} />,
        },
        shareStrips(
          stripDomain(rows.map((row) => row.of)),
          (row: (typeof rows)[number]) => row.of,
          NARROW_STRIP,
        ),
      ]}
      groups={[{ rows, analyte: comparison.analyte }]}
    />
  );
}
