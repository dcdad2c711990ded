import type { AlgorithmLine } from "../../../evaluation/algorithm/document.ts";
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
  sameIfIndependent,
  testedTitle,
} from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";
import { AnswerTable, independenceMatters } from "./answer-table.tsx";
import { BestTable } from "./best-table.tsx";

/** The answer: how many of those called positive truly are, with and without dependence; then every line. */
export function Answer({ report }: AlgorithmSectionProps) {
  const { answer: words } = report.words.algorithm;
  const line = leadingLine(report);
  const others = line === undefined ? [] : otherAnalytes(report, line);
  return (
    <section id="answer" aria-labelledby="answer-heading">
      <h2 id="answer-heading">{words.heading}</h2>
      {line === undefined ? null : (
        <>
          <p class="headline">
            <Headline report={report} line={line} />
          </p>
          <p class="together">{further(report, line).join(" ")}</p>
          {others.length === 0 ? null : <p class="together">{others.join(" ")}</p>}
        </>
      )}
      <AnswerTable report={report} />
      <p class="how">
        {words.howToRead(
          report.algorithms.file.level,
          report.algorithms.answer.target !== null,
          independenceMatters(report),
        )}
      </p>
      <BestTable report={report} />
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
  const same = sameIfIndependent(line);
  return (
    <>
      {words.of(algorithm, report.words.grammar.inline(channel))}{" "}
      <b>
        {words.truly(ofHundred(ppv.value), kind)}
        {same ? "." : ""}
      </b>
      {same ? "" : words.ifIndependent(ofHundred(independent.ppv ?? 0))} {targetSentence(report, line)}
    </>
  );
}

type Basis = "none" | "independent" | "stated" | "estimated" | "shared";

/** What the dependence of a line rests on: the file's word, or counts of its kits on the same people. */
function basisOf({ algorithms }: AlgorithmReport, line: AlgorithmLine): Basis {
  const { kind, pairs } = algorithms.dependence;
  if (sameIfIndependent(line) && kind !== "independent") return "none";
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
    ...bestSentences(report, line),
  ];
}

/** The same in short for the main algorithm of every other analyte in the channel that leads. */
function otherAnalytes(report: AlgorithmReport, leading: AlgorithmLine): string[] {
  const { answer: words } = report.words.algorithm;
  return report.algorithms.answer.lines
    .filter(
      ({ channel, analyte, main }) => main && channel === leading.channel && analyte !== leading.analyte,
    )
    .flatMap((line) => {
      const { ppv, independent, chance } = line;
      if (ppv.value === null) return [];
      return [
        words.other({
          analyte: testedTitle(report, line.analyte),
          algorithm: algorithmTitle(report, line.algorithm),
          truly: words.truly(ofHundred(ppv.value), basisOf(report, line)),
          independent: sameIfIndependent(line) ? null : ofHundred(independent.ppv ?? 0),
          chance: chance.ppv === null ? null : formats.probability(chance.ppv),
        }),
      ];
    });
}

/** Which algorithm of the file is best where the page leads. */
function bestSentences(report: AlgorithmReport, line: AlgorithmLine): string[] {
  const { answer: words } = report.words.algorithm;
  const { file, answer, algorithms } = report.algorithms;
  const rivals = algorithms.filter(({ analyte }) => analyte === line.analyte).length;
  const best = answer.best.find(
    ({ channel, analyte }) => channel === line.channel && analyte === line.analyte,
  );
  if (best === undefined || rivals < 2) return [];
  const { cheapest, surest, surestChance, cheapestChance } = best;
  const targets = Object.keys(file.targets).length > 0;
  if (cheapest === null) return [words.noneReaches];
  const first = words.cheapest(algorithmTitle(report, cheapest), cheapest === line.algorithm, targets);
  if (surest === null || surest === cheapest || surestChance === null || cheapestChance === null) {
    return [first];
  }
  const chances = [formats.probability(surestChance), formats.probability(cheapestChance)] as const;
  if (chances[0] === chances[1]) return [first];
  return [first, words.surer(algorithmTitle(report, surest), ...chances)];
}
