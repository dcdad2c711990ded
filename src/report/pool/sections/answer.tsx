import * as formats from "../../formats.ts";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { MEASURES, measureName, numberWithSpan, spanOf, toldOf } from "../names.ts";
import { PoolNotes } from "../parts.tsx";
import { AnswerTable, hasPlaces } from "./answer-table.tsx";
import { Warnings } from "./warnings.tsx";

/** The question; what to know before the figures; the answer in words, for a new place too; both as strips. */
export function Answer({ report }: PoolSectionProps) {
  const { answer: words } = report.words.pool;
  const { file, answer, notes } = report.pooling;
  const level = formats.statedPercent(file.level);
  return (
    <section id="answer" aria-labelledby="answer-heading">
      <h2 id="answer-heading">{words.heading}</h2>
      <p class="question">{file.question}</p>
      <Warnings report={report} />
      <p class="headline">{answer.basis === null ? words.none : <Headline report={report} />}</p>
      {[kinds(report), spread(report), criteria(report)].map((sentences, at) =>
        sentences.length === 0 ? null : (
          <p key={at} class="together">
            {sentences.join(" ")}
          </p>
        ),
      )}
      <AnswerTable report={report} />
      <p class="how">
        {words.howToRead(level, answer.basis !== null, hasPlaces(report), answer.criteria.length > 0)}
      </p>
      <PoolNotes report={report} notes={notes} />
    </section>
  );
}

/** By kind of study where the kinds differ, else over all; and what a new place may see. */
function Headline({ report }: PoolSectionProps) {
  const { answer: words } = report.words.pool;
  const { answer, studies } = report.pooling;
  const parts = MEASURES.map((measure) =>
    words.measure(measureName(report, measure), toldOf(report, answer[measure].summary)),
  );
  const place = newPlaceParts(report, (measure) => spanOf(report, answer[measure].prediction));
  return (
    <>
      {words.middle(studies.length, answer.basis ?? "univariate")} <b>{words.both(parts)}</b>{" "}
      {place.length === 0 ? "" : words.newPlace(place)}
    </>
  );
}

function newPlaceParts(
  report: PoolReport,
  of: (measure: "sensitivity" | "specificity") => string | null,
): { name: string; span: string }[] {
  return MEASURES.flatMap((measure) => {
    const span = of(measure);
    return span === null ? [] : [{ name: measureName(report, measure), span }];
  });
}

/** Each kind of study, where the kinds differ. */
function kinds(report: PoolReport): string[] {
  const { answer: words } = report.words.pool;
  const { answer, file } = report.pooling;
  const differing = answer.warnings.find(({ code }) => code === "levels_differ");
  if (differing === undefined) return [];
  return MEASURES.filter((measure) => differing.measures.includes(measure)).map((measure) =>
    words.byLevel(
      measureName(report, measure),
      answer.levels.map((level) => {
        const { summary, prediction } = level[measure];
        return words.level(level.level, toldOf(report, summary), spanOf(report, prediction));
      }),
      file.covariate ?? "",
    ),
  );
}

function spread(report: PoolReport): string[] {
  const { answer: words } = report.words.pool;
  const { answer } = report.pooling;
  const parts = MEASURES.flatMap((measure) => {
    const text = numberWithSpan(report, answer[measure].betweenSd);
    return text === null ? [] : [words.spreadOf(measureName(report, measure), text)];
  });
  return parts.length === 0 ? [] : [words.spread(parts, numberWithSpan(report, answer.correlation))];
}

function criteria(report: PoolReport): string[] {
  const { words, pooling } = report;
  return pooling.answer.criteria.map(({ measure, atLeast, source, summary, chance }) =>
    words.pool.answer.criterion({
      name: measureName(report, measure),
      asked: formats.statedPercent(atLeast),
      summary: words.codes.verdicts[summary],
      chance: chance === null ? null : formats.probability(chance),
      source,
    }),
  );
}
