import { type RandomSource, randomStream, taskNumber } from "../../core/random.ts";
import { chooseCutoff, type Judged, judgedAt } from "./cutoff-choice.ts";
import type { CutoffOptions, Rule } from "./cutoff-fields.ts";
import { type Ladder, readingAt } from "./ladder.ts";
import type { Rungs } from "./placements.ts";
import { redrawInto, requireAffordable, standing } from "./redrawn.ts";

export interface Redrawn {
  /** Mean of (in the people drawn, where it was chosen) less (the same cutoff in the people seen). */
  readonly optimism: Judged;
  /** The cutoffs chosen, rising; infinite where nobody is called reactive. */
  readonly cutoffs: Float64Array;
}

/**
 * The rule applied to people drawn anew within each group, and judged there and in the people seen. Replicate r has
 * the random stream (seed, r) to itself. Source: efron1993, chapter 17
 */
export function redrawnCutoffs(ladder: Ladder, rule: Rule, { replicates, seed }: CutoffOptions): Redrawn {
  const { totalPositives, totalNegatives } = ladder;
  requireAffordable(totalPositives + totalNegatives, replicates);
  const [mine, others] = [
    standing(ladder.positives, totalPositives),
    standing(ladder.negatives, totalNegatives),
  ];
  const drawn = emptyLike(ladder, totalPositives, totalNegatives);
  const cutoffs = new Float64Array(replicates);
  let [sensitivity, specificity] = [0, 0];
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const random = randomStream(seed, replicate);
    redrawInto(drawn.positives, mine, random);
    redrawInto(drawn.negatives, others, random);
    const { rung } = chooseCutoff(drawn, rule);
    const [there, here] = [judgedAt(drawn, rung), judgedAt(ladder, rung)];
    sensitivity += there.sensitivity - here.sensitivity;
    specificity += there.specificity - here.specificity;
    cutoffs[replicate] = rung >= 0 ? readingAt(ladder, rung) : beyondAll(ladder);
  }
  return {
    optimism: { sensitivity: sensitivity / replicates, specificity: specificity / replicates },
    cutoffs: cutoffs.sort(),
  };
}

function beyondAll({ direction }: Ladder): number {
  return direction === "higher" ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
}

/**
 * Every person judged by a cutoff that was chosen without them: both groups are split into parts at random, the
 * cutoff is chosen in all parts but one and tried in that one; all of it several times. Split r has the random
 * stream (seed, task + r) to itself.
 */
export function crossValidated(ladder: Ladder, rule: Rule, { folds, repeats, seed }: CutoffOptions): Judged {
  const { totalPositives, totalNegatives } = ladder;
  requireAffordable((totalPositives + totalNegatives + ladder.keys.length) * folds, repeats);
  const [mine, others] = [
    standing(ladder.positives, totalPositives),
    standing(ladder.negatives, totalNegatives),
  ];
  let [truePositives, trueNegatives] = [0, 0];
  for (let repeat = 0; repeat < repeats; repeat += 1) {
    const random = randomStream(seed, (taskNumber("cross-validation") + repeat) >>> 0);
    const [partsMine, partsOthers] = [shuffled(mine, random), shuffled(others, random)];
    for (let fold = 0; fold < folds; fold += 1) {
      const [heldMine, heldOthers] = [partOf(partsMine, fold, folds), partOf(partsOthers, fold, folds)];
      const { rung } = chooseCutoff(without(ladder, heldMine, heldOthers), rule);
      for (const place of heldMine) if (place <= rung) truePositives += 1;
      for (const place of heldOthers) if (place > rung) trueNegatives += 1;
    }
  }
  return {
    sensitivity: truePositives / (repeats * totalPositives),
    specificity: trueNegatives / (repeats * totalNegatives),
  };
}

function shuffled(rungs: Uint32Array, random: RandomSource): Uint32Array {
  const order = Uint32Array.from(rungs);
  for (let place = order.length - 1; place > 0; place -= 1) {
    const other = Math.floor(random() * (place + 1));
    [order[place], order[other]] = [order[other] as number, order[place] as number];
  }
  return order;
}

function partOf(rungs: Uint32Array, fold: number, folds: number): Uint32Array {
  const edge = (number: number) => Math.floor((number * rungs.length) / folds);
  return rungs.subarray(edge(fold), edge(fold + 1));
}

function without(ladder: Ladder, positives: Uint32Array, negatives: Uint32Array): Rungs {
  const rest = {
    positives: ladder.positives.slice(),
    negatives: ladder.negatives.slice(),
    totalPositives: ladder.totalPositives - positives.length,
    totalNegatives: ladder.totalNegatives - negatives.length,
  };
  for (const rung of positives) rest.positives[rung] = (rest.positives[rung] as number) - 1;
  for (const rung of negatives) rest.negatives[rung] = (rest.negatives[rung] as number) - 1;
  return rest;
}

function emptyLike({ keys }: Ladder, totalPositives: number, totalNegatives: number): Rungs {
  return {
    positives: new Float64Array(keys.length),
    negatives: new Float64Array(keys.length),
    totalPositives,
    totalNegatives,
  };
}
