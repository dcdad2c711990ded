import { flipsOf, verdictGroups } from "../answer-facts.ts";
import { answerGroups } from "../answer-rows.ts";
import type { Report, SectionProps } from "../context.ts";
import { Notes } from "../parts/notes.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { AnswerComparisons } from "./answer-comparisons.tsx";
import { AnswerTable } from "./answer-table.tsx";
import { Together } from "./together.tsx";

/** Said in the sentence of each criterion on invalid results. */
const SAID = "first_attempts";

/** The answer: how many criteria are met, each with its evidence in one line and in plain words. */
export function Answer({ report }: SectionProps) {
  const { answer: words } = report.words;
  const groups = answerGroups(report);
  const { answers } = report.evaluation;
  return (
    <section id="answer" aria-labelledby="answer-heading">
      <h2 id="answer-heading">{words.heading}</h2>
      <p class="headline">
        {answers.length === 0 ? words.leadWithoutCriteria : <Headline report={report} />}
      </p>
      {report.evaluation.decision === null ? null : (
        <p class="together">
          <Together report={report} />
        </p>
      )}
      {groups.length === 0 ? null : <AnswerTable report={report} groups={groups} />}
      <AnswerComparisons report={report} />
      <p class="how">{howToRead(report)}</p>
      <Notes
        report={report}
        notes={answers.flatMap(({ notes }) => notes).filter(({ code }) => code !== SAID)}
      />
    </section>
  );
}

function howToRead(report: Report): string {
  const { answer: words, codes } = report.words;
  const { level, method } = report.evaluation.study.interval;
  const { answers } = report.evaluation;
  if (answers.length === 0) return words.howToReadWithoutCriteria(level, codes.intervals[method]);
  const treated = answers.filter((answer) => answer.byInvalidTreatment.length > 0);
  const flips = treated.some((answer) => flipsOf(report, answer).length > 0);
  const judged = treated.filter(({ verdict }) => verdict !== "not_estimable");
  const stability = judged.length === 0 ? [] : [flips ? words.someFlips : words.noFlips];
  const alone = report.evaluation.decision === null ? [words.eachByItself] : [];
  const margins = report.evaluation.comparisons.some(({ measures }) =>
    measures.some(({ margin }) => margin !== null),
  );
  return [
    words.howToRead(level, codes.intervals[method]),
    ...alone,
    words.probability,
    ...(margins ? [words.margins] : []),
    ...stability,
  ].join(" ");
}

/** How many criteria are met, and which are not: each verdict in its weight, as in the table below. */
function Headline({ report }: SectionProps) {
  const sentences = report.words.answer.headline(verdictGroups(report));
  const pieces = sentences.flatMap((pieces, place) => (place === 0 ? pieces : [" ", ...pieces]));
  return (
    <>
      {pieces.map((piece, place) =>
        typeof piece === "string" ? piece : <Verdict key={place} report={report} verdict={piece.verdict} />,
      )}
    </>
  );
}
