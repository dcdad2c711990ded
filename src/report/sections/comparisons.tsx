import type { Comparison } from "../../evaluation/document.ts";
import { comparedFacts, marginFacts, sidesOf } from "../comparison-facts.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle, speaksOfAgreement, termsOf, worded } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { Differences } from "./compared-differences.tsx";
import { ComparedMeasure } from "./compared-measure.tsx";
import { ComparedPredictive } from "./compared-predictive.tsx";

/** Kits, specimen types or readers held against each other, one comparison after the other. */
export function Comparisons({ report }: SectionProps) {
  return (
    <Section report={report} id="comparisons">
      <p>{report.words.comparisons.lead}</p>
      {report.evaluation.comparisons.map((comparison) => (
        <AnalytePart key={comparison.id} analyte={comparison.analyte}>
          <OneComparison report={report} comparison={comparison} />
        </AnalytePart>
      ))}
    </Section>
  );
}

/** Said in the sentence above the tables. */
const SAID = new Set(["on_one_side", "different_people"]);

function OneComparison({ report, comparison }: { report: Report; comparison: Comparison }) {
  const { comparisons: words } = report.words;
  const { measures, people } = comparison;
  const sides = sidesOf(report, comparison);
  const same = measures.some(({ paired }) => paired !== null);
  return (
    <>
      <h3>{words.heading(analyteTitle(report, comparison.analyte), comparison.title)}</h3>
      <p class="lead">
        {same
          ? words.samePeople(people.both, people.firstOnly, people.secondOnly, ...sides)
          : words.differentPeople(people.firstOnly + people.both, people.secondOnly + people.both, ...sides)}
      </p>
      {measures.map((one) => (
        <ComparedMeasure key={one.measure} report={report} comparison={comparison} one={one} />
      ))}
      {measures.length === 0 ? null : <Differences report={report} comparison={comparison} />}
      {measures.map((one) => (
        <p key={one.measure}>{sentences(report, comparison, one)}</p>
      ))}
      <p class="how">{methodsText(report, comparison)}</p>
      {speaksOfAgreement(report, comparison.analyte) ? null : (
        <ComparedPredictive report={report} comparison={comparison} />
      )}
      <Notes
        report={report}
        notes={[...comparison.notes, ...measures.flatMap(({ notes }) => notes)].filter(
          ({ code }) => !SAID.has(code),
        )}
      />
    </>
  );
}

function sentences(report: Report, comparison: Comparison, one: Comparison["measures"][number]): string {
  const { comparisons: words } = report.words;
  const facts = comparedFacts(report, comparison, one);
  const margin = marginFacts(report, comparison, one);
  return [words.plain(facts), words.onlyOne(facts), margin === null ? null : words.margin(margin)]
    .filter((part) => part !== null)
    .join(" ");
}

/** What gave intervals and p-values, and where the margin comes from: each said once. */
function methodsText(report: Report, { measures, analyte }: Comparison): string {
  const { comparisons: words, page } = report.words;
  const terms = termsOf(report, analyte);
  const used = measures.map(({ interval, test }) =>
    words.methods(worded(words.intervals, interval), worded(words.tests, test)),
  );
  const margins = measures.flatMap(({ margin }) =>
    margin === null
      ? []
      : [
          words.marginSource(
            words.marginText(margin.margin, margin.kind),
            margin.source,
            margin.enteredOn === null ? null : page.date(margin.enteredOn),
          ),
        ],
  );
  const tested = measures.flatMap(({ margin, measure }) =>
    margin === null || margin.pValue === null
      ? []
      : [words.marginP(margin.kind, terms[measure], formats.pValue(margin.pValue))],
  );
  return [...new Set([...used, ...margins, ...tested])].join(" ");
}
