import type { AlgorithmLine, BestAlgorithm } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { ANSWER_NOTES } from "../answer-notes.ts";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import {
  algorithmTitle,
  channelTitle,
  hasPrices,
  leadingLine,
  money,
  ofHundred,
  severalAnalytes,
} from "../names.ts";
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
          <p class="together">{bestSentences(report).join(" ")}</p>
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
  const kind = basisOf(report, line);
  const same = independent.ppv === null || kind === "none" || kind === "independent";
  return (
    <>
      {words.of(algorithm, report.words.grammar.inline(channel))}{" "}
      <b>{words.truly(ofHundred(ppv.value), kind)}</b>
      {same ? "." : words.ifIndependent(ofHundred(independent.ppv ?? 0))} {targetSentence(report, line)}
    </>
  );
}

type Basis = "none" | "independent" | "stated" | "estimated" | "shared";

/** What the dependence of a line rests on: the file's word, or counts of its kits on the same people. */
function basisOf({ algorithms }: AlgorithmReport, line: AlgorithmLine): Basis {
  const { kind, pairs } = algorithms.dependence;
  if (line.independent.ppv === line.ppv.value && kind !== "independent") return "none";
  if (kind !== "pairs") return kind;
  const kits = line.kits.map(({ kit }) => kit);
  const own = pairs.filter(
    ({ analyte, first, second }) =>
      analyte === line.analyte && first !== second && kits.includes(first) && kits.includes(second),
  );
  return own.length > 0 && own.every(({ source }) => source === "estimated") ? "estimated" : "stated";
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
  ];
}

/** Which algorithm is the cheapest that reaches every target, analyte by analyte. */
function bestSentences(report: AlgorithmReport): string[] {
  const { answer: words } = report.words.algorithm;
  const { file, algorithms, answer } = report.algorithms;
  const anyTarget = Object.keys(file.targets).length > 0;
  return file.analytes.flatMap(({ id, title }) => {
    const best = answer.best.filter(({ analyte }) => analyte === id);
    if (best.length === 0 || algorithms.filter(({ analyte }) => analyte === id).length < 2) return [];
    const chosen = [...new Set(best.map(({ cheapest }) => cheapest))];
    const parts = chosen.map((cheapest) => {
      const channels = bestChannels(report, best, cheapest);
      return cheapest === null
        ? words.noneFor(channels)
        : words.bestFor(algorithmTitle(report, cheapest), channels);
    });
    const surer = surerList(report, best);
    return [
      words.best(severalAnalytes(report) ? title : null, parts.join("; "), anyTarget),
      ...(surer.length === 0 ? [] : [words.surer(surer.join("; "))]),
    ];
  });
}

/** A difference in the probability of reaching the targets that is worth a word. */
const WORTH_SAYING = 0.05;

/** Where another algorithm reaches the targets more surely than the cheapest that does. */
function surerList(report: AlgorithmReport, best: readonly BestAlgorithm[]): string[] {
  const { answer: words } = report.words.algorithm;
  return best.flatMap(({ channel, cheapest, surest, surestChance, cheapestChance }) => {
    if (cheapest === null || surest === null || surestChance === null || cheapestChance === null) return [];
    if (surest === cheapest || surestChance - cheapestChance < WORTH_SAYING) return [];
    return [
      words.surerFor(
        algorithmTitle(report, surest),
        report.words.grammar.inline(channelTitle(report, channel)),
        formats.probability(surestChance),
        formats.probability(cheapestChance),
      ),
    ];
  });
}

function bestChannels(
  report: AlgorithmReport,
  best: readonly BestAlgorithm[],
  cheapest: string | null,
): string {
  const { answer: words } = report.words.algorithm;
  const { grammar } = report.words;
  const where = best.filter((one) => one.cheapest === cheapest);
  if (where.length === best.length && best.length > 1) return words.everyChannel;
  return words.inChannels(
    grammar.listed(where.map(({ channel }) => grammar.inline(channelTitle(report, channel)))),
  );
}
