import type { Pair, PairedSet, RapidResult, ReferenceStatus, SetAside } from "./model.ts";
import { isAnalysed, REASONS, type Treatment, treatedRapid, type Where, whereTo } from "./treatment.ts";

export type { Treatment } from "./treatment.ts";

export interface FourfoldCounts {
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
}

type CrossTabulation = Record<RapidResult | "not_done", Record<ReferenceStatus, number>>;

/** Counts of people. `people` = `analysed` + the sum of `setAside`. */
export interface Tally {
  readonly counts: FourfoldCounts;
  /** Invalid results among people of known reference status, after the treatment of late and early ones. */
  readonly invalidPositives: number;
  readonly invalidNegatives: number;
  /** As recorded, before any treatment. */
  readonly crossTabulation: CrossTabulation;
  readonly people: number;
  readonly analysed: number;
  readonly setAside: readonly SetAside[];
  /** Analysed people whose minutes to the reading are not known; they are kept. */
  readonly unknownMinutes: number;
}

/**
 * Counts people into the fourfold table of one analyte, specimen type and reader.
 *
 * @param keep only these pairs are counted (for subgroups); absent: all
 * @returns counts of people (weights add up for count records); every pair ends either in the
 *   fourfold table or under one reason of `setAside`
 */
export function tally(set: PairedSet, treatment: Treatment, keep?: (pair: Pair) => boolean): Tally {
  const ends = new Map<Where, number>();
  const cross = emptyCrossTabulation();
  const invalid = { positive: 0, negative: 0 };
  let people = 0;
  let unknownMinutes = 0;
  for (const pair of set.pairs) {
    if (keep !== undefined && !keep(pair)) continue;
    people += pair.weight;
    cross[pair.rapid][pair.reference] += pair.weight;
    const end = whereTo(pair, treatment);
    ends.set(end, (ends.get(end) ?? 0) + pair.weight);
    if (isAnalysed(end) && pair.window === "unknown") unknownMinutes += pair.weight;
    const known = pair.reference === "positive" || pair.reference === "negative";
    if (known && treatedRapid(pair, treatment) === "invalid") {
      invalid[pair.reference as "positive" | "negative"] += pair.weight;
    }
  }
  return summary(ends, { cross, people, unknownMinutes, invalid });
}

interface Sums {
  readonly cross: CrossTabulation;
  readonly people: number;
  readonly unknownMinutes: number;
  readonly invalid: { readonly positive: number; readonly negative: number };
}

function summary(ends: ReadonlyMap<Where, number>, sums: Sums): Tally {
  const at = (end: Where) => ends.get(end) ?? 0;
  const counts = {
    truePositives: at("true_positive"),
    falsePositives: at("false_positive"),
    falseNegatives: at("false_negative"),
    trueNegatives: at("true_negative"),
  };
  const setAside = REASONS.filter((reason) => at(reason) > 0).map((reason) => ({
    reason,
    people: at(reason),
  }));
  return {
    counts,
    invalidPositives: sums.invalid.positive,
    invalidNegatives: sums.invalid.negative,
    crossTabulation: sums.cross,
    people: sums.people,
    analysed: counts.truePositives + counts.falsePositives + counts.falseNegatives + counts.trueNegatives,
    setAside,
    unknownMinutes: sums.unknownMinutes,
  };
}

function emptyCrossTabulation(): CrossTabulation {
  const row = () => ({ positive: 0, negative: 0, indeterminate: 0, not_done: 0 });
  return { reactive: row(), nonreactive: row(), invalid: row(), not_done: row() };
}
