import type { Note } from "../../core/note.ts";
import { pairedPredictiveValues } from "../../methods/comparison/paired-predictive-values.ts";
import { unpaired } from "../../methods/comparison/unpaired.ts";
import type { FourfoldCounts } from "../../records/tallies.ts";
import type { ComparedPeople, RightCounts } from "../compared-people.ts";
import type { Comparison } from "../document.ts";
import { notesAtPlace, notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

interface Valued {
  readonly predictive: Comparison["predictive"];
  readonly notes: readonly Note[];
}

const VALUES = ["ppv", "npv"] as const;
const NAMES = { first: "first", second: "second", difference: "difference", ratio: "ratio" };

/** Predictive values of two tests on the same people. Whoever is right on a reference-negative is non-reactive. */
export function predictiveOfSame(worktop: Worktop, { onBoth }: ComparedPeople): Valued {
  const input = { positives: { ...onBoth.positive }, negatives: wrongOf(onBoth.negative) };
  const { values, notes } = worktop.compute(pairedPredictiveValues, input, worktop.interval);
  const named = notes.map((entry) => ({ ...entry, path: entry.path.replace(".weightedScore", ".pValue") }));
  return {
    predictive: VALUES.map((measure) => {
      const { first, second, difference, ratio, weightedScore } = values[measure];
      const shown = { measure, first: first.value, second: second.value, difference, ratio };
      return { ...shown, pValue: weightedScore.pValue };
    }),
    notes: notesUnder(named, { ppv: "predictive.0", npv: "predictive.1" }).filter(
      ({ path }) => !path.includes("generalisedScore"),
    ),
  };
}

function wrongOf({ both, firstOnly, secondOnly, neither }: RightCounts): RightCounts {
  return { both: neither, firstOnly: secondOnly, secondOnly: firstOnly, neither: both };
}

/** Predictive values of two tests on different people: two proportions. */
export function predictiveOfDifferent(worktop: Worktop, { onOne }: ComparedPeople): Valued {
  const [first, second] = [sharesOf(onOne.first), sharesOf(onOne.second)];
  const notes: Note[] = [];
  const predictive = VALUES.map((measure, index) => {
    const groups = { first: first[measure], second: second[measure] };
    const found = worktop.compute(unpaired, groups, worktop.interval);
    const { values } = found;
    notes.push(
      ...notesAtPlace(notesUnder(found.notes, { ...NAMES, fisher: "pValue" }), `predictive.${index}`),
    );
    return {
      measure,
      first: values.first.value,
      second: values.second.value,
      difference: values.difference,
      ratio: values.ratio,
      pValue: values.fisher.twoSided,
    };
  });
  return { predictive, notes };
}

function sharesOf({ truePositives, falsePositives, falseNegatives, trueNegatives }: FourfoldCounts) {
  return {
    ppv: { count: truePositives, total: truePositives + falsePositives },
    npv: { count: trueNegatives, total: trueNegatives + falseNegatives },
  };
}
