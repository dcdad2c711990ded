import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import { normalAverage } from "../../numeric/normal-average.ts";
import type { PreparedShared } from "./prepared-dependence.ts";

/** The runs of one kit. */
interface KitRuns {
  /** Bit pattern of the runs that are of this kit. */
  readonly mask: number;
  readonly runs: number;
  /** Threshold and slopes on the probit scale: reactive with cdf(threshold + common u + own v). */
  readonly threshold: number;
  readonly common: number;
  readonly own: number;
}

/**
 * Probabilities of all result patterns where one latent effect per person is shared by all kits, and one more
 * by the runs of each kit: given both, runs are independent, and reactive with a probability whose probit is
 * linear in the effects. Thresholds keep each kit's share of reactive results.
 *
 * Source: a random effect on the probit scale, Qu, Tan and Kutner 1996, Biometrics 52, 797-810 (recalled).
 */
export function sharedTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedShared,
  into: Float64Array,
): Float64Array {
  const groups = groupsOf(kits, reactive, model);
  const steepness = groups.reduce(
    (sum, { runs, common, own }) => sum + (runs * common * common) / (runs === 1 ? 1 + own * own : 1),
    0,
  );
  const { nodes, weights } = normalAverage(steepness);
  const size = 1 << kits.length;
  const given = new Float64Array(size);
  into.fill(0, 0, size);
  for (let at = 0; at < nodes.length; at += 1) {
    fillGiven(groups, nodes[at] as number, kits.length, given);
    const weight = weights[at] as number;
    for (let bits = 0; bits < size; bits += 1) {
      into[bits] = (into[bits] as number) + weight * (given[bits] as number);
    }
  }
  return into;
}

function groupsOf(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  { common, own }: PreparedShared,
): KitRuns[] {
  return [...new Set(kits)].map((kit) => {
    const slope = common[kit] as number;
    const mask = kits.reduce((bits, other, run) => (other === kit ? bits | (1 << run) : bits), 0);
    return {
      mask,
      runs: kits.filter((other) => other === kit).length,
      threshold: normalQuantile(reactive[kit] as number) * Math.sqrt(1 + slope * slope + own * own),
      common: slope,
      own,
    };
  });
}

/** The table given the shared effect: kits are independent there. */
function fillGiven(groups: readonly KitRuns[], effect: number, runs: number, into: Float64Array): void {
  const size = 1 << runs;
  into.fill(1, 0, size);
  for (const group of groups) {
    const byCount = chancesByCount(group, effect);
    for (let bits = 0; bits < size; bits += 1) {
      into[bits] = (into[bits] as number) * (byCount[ones(bits & group.mask)] as number);
    }
  }
}

/** Probability that certain runs of a kit are reactive and its others not, by how many are. */
function chancesByCount({ runs, threshold, common, own }: KitRuns, effect: number): number[] {
  const border = threshold + common * effect;
  if (runs === 1 || own === 0) return powers(border / Math.sqrt(1 + (runs === 1 ? own * own : 0)), runs);
  const { nodes, weights } = normalAverage(runs * own * own);
  const sums = new Array<number>(runs + 1).fill(0);
  for (let at = 0; at < nodes.length; at += 1) {
    const given = powers(border + own * (nodes[at] as number), runs);
    for (let count = 0; count <= runs; count += 1) {
      sums[count] = (sums[count] as number) + (weights[at] as number) * (given[count] as number);
    }
  }
  return sums;
}

function powers(border: number, runs: number): number[] {
  const yes = normalCdf(border);
  const no = normalCdf(border, "upper");
  return runs === 1
    ? [no, yes]
    : Array.from({ length: runs + 1 }, (_, count) => yes ** count * no ** (runs - count));
}

function ones(bits: number): number {
  let count = 0;
  for (let left = bits; left > 0; left &= left - 1) count += 1;
  return count;
}
