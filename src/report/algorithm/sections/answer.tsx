import type { AlgorithmLine } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { ANSWER_NOTES } from "../answer-notes.ts";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, channelTitle, hasPrices, leadingLine, money, ofHundred } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";
import { AnswerTable } from "./answer-table.tsx";

/** The answer: how many of those called positive truly are, with and without dependence; then every line. */
export function Answer({ report }: AlgorithmSectionProps) {
  const { answer: words } = report.words.algorithm;
  const line = leadingLine(report);
  return (
    <section id="answer" aria-labelledby="answer-heading">
      <h2 id="answer-heading">{words.heading}</h2>
      {line === undefined ? null : (
        <>
          <p class="headline">
            <Headline report={report} line={line} />
          </p>
          <p class="together">{further(report, line).join(" ")}</p>
        </>
      )}
      <AnswerTable report={report} />
      <p class="how">
        {words.howToRead(report.algorithms.file.level, report.algorithms.answer.target !== null)}
      </p>
      <AlgorithmNotes
        report={report}
        notes={report.algorithms.notes.filter(({ code }) => !ANSWER_NOTES.has(code))}
      />
    </section>
  );
}

function Headline({ report, line }: { report: AlgorithmReport; line: AlgorithmLine }) {
  const { answer: words } = report.words.algorithm;
  const { ppv, independent } = line;
  const algorithm = algorithmTitle(report, line.algorithm);
  const channel = channelTitle(report, line.channel);
  if (ppv.value === null) return <>{words.nobody(algorithm, channel)}</>;
  const kind = basisOf(report);
  const same = independent.ppv === null || kind === "none" || kind === "independent";
  return (
    <>
      {words.of(algorithm, report.words.grammar.inline(channel))}{" "}
      <b>{words.truly(ofHundred(ppv.value), kind)}</b>
      {same ? "." : words.ifIndependent(ofHundred(independent.ppv ?? 0))} {targetSentence(report, line)}
    </>
  );
}

/** What the dependence rests on: the file's word, or counts of both kits on the same people. */
function basisOf({
  algorithms,
}: AlgorithmReport): "none" | "independent" | "stated" | "estimated" | "shared" {
  const { kind, pairs } = algorithms.dependence;
  if (kind !== "pairs") return kind;
  return pairs.length > 0 && pairs.every(({ source }) => source === "estimated") ? "estimated" : "stated";
}

function targetSentence(report: AlgorithmReport, { chance, meets }: AlgorithmLine): string {
  const { answer: words } = report.words.algorithm;
  const { target } = report.algorithms.answer;
  if (target === null) return words.noTarget;
  const wanted = formats.statedPercent(target);
  if (chance.ppv !== null) return words.targetChance(wanted, formats.probability(chance.ppv));
  return words.targetAtCentre(wanted, meets.ppv === true);
}

function further(report: AlgorithmReport, line: AlgorithmLine): string[] {
  const { answer: words } = report.words.algorithm;
  const { per100000, cost } = line;
  const { perClient, perCaseFound } = cost;
  return [
    words.people(
      formats.expectedFew(per100000.falsePositives),
      formats.expectedFew(per100000.missed),
      formats.expectedFew(per100000.inconclusive + per100000.lost),
    ),
    ...(hasPrices(report) && perClient.value !== null
      ? [
          words.cost(
            money(report, perClient.value),
            perCaseFound === null ? null : money(report, perCaseFound),
          ),
        ]
      : []),
    ...bestSentences(report),
  ];
}

/** Which algorithm is the cheapest that reaches every target, channels of like answers together. */
function bestSentences(report: AlgorithmReport): string[] {
  const { answer: words } = report.words.algorithm;
  const { best, target } = report.algorithms.answer;
  const { grammar } = report.words;
  if (report.algorithms.algorithms.length < 2) return [];
  const chosen = [...new Set(best.map(({ cheapest }) => cheapest))];
  const parts = chosen.map((cheapest) => {
    const where = best
      .filter((one) => one.cheapest === cheapest)
      .map(({ channel }) => grammar.inline(channelTitle(report, channel)));
    const channels = grammar.listed([...new Set(where)]);
    return cheapest === null
      ? words.noneFor(channels)
      : words.bestFor(algorithmTitle(report, cheapest), channels);
  });
  if (parts.length === 0) return [];
  const anyTarget = target !== null || Object.keys(report.algorithms.file.targets).length > 0;
  return [words.best(parts.join("; "), anyTarget)];
}
