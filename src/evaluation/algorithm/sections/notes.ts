import { type Note, note } from "../../../core/note.ts";
import type { AlgorithmFile } from "../../../records/algorithm/algorithm-schema.ts";
import type { AlgorithmDependence, AlgorithmsAnswer, DrawnUncertainty } from "../document.ts";

/** What a reader of the whole document must know, gravest first. */
export function notesOn(
  file: AlgorithmFile,
  answer: AlgorithmsAnswer,
  dependence: AlgorithmDependence,
  uncertainty: readonly DrawnUncertainty[],
): Note[] {
  return [
    ...dependenceNotes(dependence),
    ...targetNotes(file, answer),
    ...bestNotes(answer),
    ...(file.costs === undefined
      ? [note("no_costs", "answer.lines", "no costs are stated: costs are those of the kits alone")]
      : []),
    ...drawNotes(file, uncertainty),
  ];
}

/** Where fewer draws were made than asked for. */
function drawNotes({ draws }: AlgorithmFile, uncertainty: readonly DrawnUncertainty[]): Note[] {
  return uncertainty.flatMap(({ analyte, drawn }, at) => {
    const { draws: made } = drawn.values;
    if (made >= draws) return [];
    const message = `for ${analyte} ${made.toLocaleString("en-GB")} draws had to do: pairs take long where one person may have four valid runs or more`;
    return [note("fewer_draws", `uncertainty.${at}.drawn.options.draws`, message)];
  });
}

function dependenceNotes({ kind, pairs }: AlgorithmDependence): Note[] {
  if (kind === "independent") {
    const message =
      "the file takes the kits' errors as independent, which they seldom are: the share of positives that are right is mostly less than shown";
    return [note("independence", "dependence.kind", message)];
  }
  return pairs.flatMap(({ analyte, first, second, notes }, at) =>
    notes.map((one) =>
      note(
        one.code,
        `dependence.pairs.${at}.${one.path}`,
        `${first} and ${second}, ${analyte}: ${one.message}`,
      ),
    ),
  );
}

function targetNotes({ targets }: AlgorithmFile, answer: AlgorithmsAnswer): Note[] {
  if (Object.values(targets).every((target) => target === undefined || target === false)) {
    const message = "no targets are stated: no algorithm is called the best";
    return [note("no_targets", "answer.best", message)];
  }
  return answer.best.flatMap(({ channel, analyte, cheapest }, at) =>
    cheapest === null
      ? [
          note(
            "none_reaches",
            `answer.best.${at}.cheapest`,
            `no algorithm for ${analyte} reaches every target in ${channel}`,
          ),
        ]
      : [],
  );
}

/** Where the cheapest just reaches the targets and another reaches them more surely. */
function bestNotes({ best }: AlgorithmsAnswer): Note[] {
  return best.flatMap(({ channel, analyte, cheapest, surest, cheapestChance, surestChance }, at) => {
    if (cheapest === null || surest === null || cheapest === surest) return [];
    if (cheapestChance === null || surestChance === null) return [];
    const message = `${analyte} in ${channel}: ${cheapest} is the cheapest that reaches the targets, with a probability of ${cheapestChance.toFixed(2)}; ${surest} reaches them with one of ${surestChance.toFixed(2)}`;
    return [note("surer", `answer.best.${at}.surest`, message)];
  });
}
