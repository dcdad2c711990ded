import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { type RatioEstimate, type RatioMethod, ratioInterval } from "../proportion/ratio-interval.ts";
import { conditionalOddsRatio } from "../strata/conditional-odds-ratio.ts";
import type { FourCounts } from "./fields.ts";

/** Likelihood ratios and diagnostic odds ratio of one table, with what has to be said about them. */
export interface AccuracyRatios {
  readonly positiveLikelihoodRatio: Estimate;
  readonly negativeLikelihoodRatio: Estimate;
  readonly diagnosticOddsRatio: Estimate;
  readonly notes: readonly Note[];
}

/**
 * How many times more often a result comes among those with the condition than among those without.
 * A cell of 0 may make a ratio infinite (`null`, with the note `unbounded` and a lower limit).
 * Sources: simel1991, koopman1984 (likelihood ratios); woolf1955, agresti2002 (odds ratio)
 */
export function accuracyRatios(counts: FourCounts, method: RatioMethod, level: number): AccuracyRatios {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const positives = truePositives + falseNegatives;
  const negatives = falsePositives + trueNegatives;
  const positive = ratioInterval(
    { count: truePositives, total: positives },
    { count: falsePositives, total: negatives },
    method,
    level,
  );
  const negative = ratioInterval(
    { count: falseNegatives, total: positives },
    { count: trueNegatives, total: negatives },
    method,
    level,
  );
  const odds = oddsRatio(counts, level);
  return {
    positiveLikelihoodRatio: plain(positive),
    negativeLikelihoodRatio: plain(negative),
    diagnosticOddsRatio: odds.estimate,
    notes: [
      ...ratioNotes("positiveLikelihoodRatio", positive, method),
      ...ratioNotes("negativeLikelihoodRatio", negative, method),
      ...odds.notes,
    ],
  };
}

export function plain({ value, lower, upper }: Estimate): Estimate {
  return { value, lower, upper };
}

/** What to say of a ratio that could not be had, is infinite, or came from another interval. */
export function ratioNotes(path: string, ratio: RatioEstimate, asked: RatioMethod): Note[] {
  if (ratio.kind === "not_estimable") {
    return [note("not_estimable", path, "no such result, or nobody, on one side: 0 divided by 0")];
  }
  const notes: Note[] = [];
  if (ratio.kind === "infinite") {
    const message =
      "no such result among the reference-negative: the ratio is infinite, only a lower limit exists";
    notes.push(note("unbounded", path, message));
  }
  if (ratio.used !== asked) {
    notes.push(note("score_interval", path, "the log interval has no answer here: score interval instead"));
  }
  return notes;
}

function oddsRatio(counts: FourCounts, level: number): { estimate: Estimate; notes: Note[] } {
  const path = "diagnosticOddsRatio";
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const cells = [truePositives, falsePositives, falseNegatives, trueNegatives];
  if (cells.every((cell) => cell > 0)) return { estimate: woolf(counts, level), notes: [] };
  const exact = conditionalOddsRatio(
    { count: truePositives, total: truePositives + falseNegatives },
    { count: falsePositives, total: falsePositives + trueNegatives },
    level,
  );
  if (exact.lower === null) {
    return { estimate: exact, notes: [note("not_estimable", path, "a whole row or column is empty")] };
  }
  const notes = [note("exact_interval", path, "a cell is 0: exact conditional limits instead of Woolf's")];
  if (exact.upper === null) {
    notes.unshift(
      note("unbounded", path, "a cell is 0: the odds ratio is infinite, only a lower limit exists"),
    );
  }
  return { estimate: exact, notes };
}

/** Odds ratio with normal limits on the log scale; cells above 0. Source: woolf1955 */
function woolf(
  { truePositives, falsePositives, falseNegatives, trueNegatives }: FourCounts,
  level: number,
): Estimate {
  const value = (truePositives / falseNegatives) * (trueNegatives / falsePositives);
  const variance = 1 / truePositives + 1 / falsePositives + 1 / falseNegatives + 1 / trueNegatives;
  const factor = Math.exp(normalQuantile((1 - level) / 2, "upper") * Math.sqrt(variance));
  return { value, lower: value / factor, upper: value * factor };
}

/**
 * The same ratios after adding a half to every cell: for display beside the plain ones, biased, and
 * only defined by convention. The rates become (count + 1/2) / (total + 1).
 */
export function halfAddedRatios(counts: FourCounts, level: number): Omit<AccuracyRatios, "notes"> {
  const added = {
    truePositives: counts.truePositives + 0.5,
    falsePositives: counts.falsePositives + 0.5,
    falseNegatives: counts.falseNegatives + 0.5,
    trueNegatives: counts.trueNegatives + 0.5,
  };
  const positives = added.truePositives + added.falseNegatives;
  const negatives = added.falsePositives + added.trueNegatives;
  const ratio = (first: number, second: number) =>
    plain(
      ratioInterval({ count: first, total: positives }, { count: second, total: negatives }, "log", level),
    );
  return {
    positiveLikelihoodRatio: ratio(added.truePositives, added.falsePositives),
    negativeLikelihoodRatio: ratio(added.falseNegatives, added.trueNegatives),
    diagnosticOddsRatio: woolf(added, level),
  };
}
