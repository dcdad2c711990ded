import type { Comparison } from "../../evaluation/document.ts";
import { type Compared, comparedFacts, marginFacts, sidesOf } from "../comparison-facts.ts";
import type { Report, SectionProps } from "../context.ts";
import { DifferenceStrip, marginMarks } from "../figures/difference-strip.tsx";
import { differenceDomain, type StripDomain } from "../figures/strip-scale.ts";
import { analyteTitle, termsOf } from "../names.ts";
import { PointsInterval, pText } from "../parts/numbers.tsx";
import { DifferenceScale } from "../parts/strip-column.tsx";
import { Verdict } from "../parts/verdict.tsx";

const STRIP = 190;

interface MarginRow {
  readonly comparison: Comparison;
  readonly one: Compared;
  /** The first line of its comparison, which bears the comparison's name. */
  readonly lines: number | null;
}

/** Comparisons that have a margin: met, not met or undecided, like the criteria above them. */
export function AnswerComparisons({ report }: SectionProps) {
  const { comparisons: words, page } = report.words;
  const judged = report.evaluation.comparisons
    .map((comparison) => ({
      comparison,
      measures: comparison.measures.filter(({ margin }) => margin !== null),
    }))
    .filter(({ measures }) => measures.length > 0);
  if (judged.length === 0) return null;
  const all = judged.flatMap(({ measures }) => measures);
  const domain = differenceDomain(
    all.map((one) => one.difference),
    all.flatMap((one) => marginMarks(one.margin)),
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(words.answerCaption)}>
      <table class="answers compared">
        <caption class="unseen">{words.answerCaption}</caption>
        <Head report={report} domain={domain} />
        {judged.map(({ comparison, measures }) => (
          <tbody key={comparison.id} data-analyte={comparison.analyte}>
            {measures.map((one, place) => (
              <Lines
                key={one.measure}
                report={report}
                row={{ comparison, one, lines: place === 0 ? measures.length * 2 : null }}
                domain={domain}
              />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function Head({ report, domain }: { report: Report; domain: StripDomain }) {
  const { comparisons: words, page, answer } = report.words;
  const { columns, answerColumns } = words;
  return (
    <thead>
      <tr>
        <th scope="col">{answerColumns.compared}</th>
        <th scope="col">{columns.measure}</th>
        <th scope="col" class="number">
          {columns.difference}
          <span class="limits">{page.interval(report.evaluation.study.interval.level)}</span>
        </th>
        <th scope="col" class="number">
          {columns.margin}
        </th>
        <th scope="col" class="figure">
          <DifferenceScale domain={domain} width={STRIP} />
        </th>
        <th scope="col">{answer.columns.verdict}</th>
        <th scope="col" class="number narrow">
          {answerColumns.pValue}
        </th>
      </tr>
    </thead>
  );
}

function Lines({ report, row, domain }: { report: Report; row: MarginRow; domain: StripDomain }) {
  const { comparisons: words, grammar } = report.words;
  const { comparison, one, lines } = row;
  const facts = marginFacts(report, comparison, one);
  if (one.margin === null || facts === null) return null;
  const terms = termsOf(report, comparison.analyte);
  const [first, second] = sidesOf(report, comparison);
  const { onlyOne } = words;
  const said = [onlyOne(comparedFacts(report, comparison, one)), words.margin(facts)];
  return (
    <>
      <tr class={lines === null ? "measured" : "measured first"}>
        {lines === null ? null : (
          <th scope="rowgroup" rowSpan={lines} class="analyte">
            {analyteTitle(report, comparison.analyte)}
          </th>
        )}
        <th scope="row" class="measure">
          {grammar.sentence(terms[one.measure])}
          <span class="place">{words.versus(first, second)}</span>
        </th>
        <td class="number estimate" data-label={words.columns.difference}>
          <PointsInterval report={report} of={one.difference} margins={marginMarks(one.margin)} />
        </td>
        <td class="number criterion" data-label={words.columns.margin}>
          {words.marginText(one.margin.margin, one.margin.kind)}
        </td>
        <td class="figure">
          <div class="card-scale">
            <DifferenceScale domain={domain} width={STRIP} />
          </div>
          <DifferenceStrip difference={one.difference} margin={one.margin} domain={domain} width={STRIP} />
        </td>
        <td class="judgement">
          <Verdict report={report} verdict={one.margin.verdict} />
          <span class="place">{words.kinds[one.margin.kind]}</span>
        </td>
        <td class="number probability" data-label={words.answerColumns.pValue}>
          {pText(one.margin.pValue)}
        </td>
      </tr>
      <tr class="said">
        <td colSpan={6}>{said.filter((part) => part !== null).join(" ")}</td>
      </tr>
    </>
  );
}
