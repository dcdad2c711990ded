import type { GaussRule } from "../../numeric/gauss-legendre.ts";
import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import { normalAverage } from "../../numeric/normal-average.ts";
import type { PreparedShared } from "./prepared-dependence.ts";

/** The runs of one kit. */
interface KitRuns {
  readonly kit: number;
  /** Bit pattern of the runs that are of this kit, and how many they are. */
  readonly mask: number;
  readonly runs: number;
}

/**
 * Probabilities of all result patterns where one latent effect per person is shared by all kits, and one more
 * by the runs of each kit: given both, runs are independent, and reactive with a probability whose probit is
 * linear in the effects. Thresholds keep each kit's share of reactive results. Exact to about 1e-14.
 *
 * Source: a random effect on the probit scale, Qu, Tan and Kutner 1996, Biometrics 52, 797-810 (recalled).
 */
export function sharedTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedShared,
  into: Float64Array,
): Float64Array {
  const groups = groupsOf(kits);
  const rule = normalAverage(steepnessOf(groups, model));
  const chances = groups.map((group) => chancesOf(group, reactive[group.kit] as number, model, rule));
  const size = 1 << kits.length;
  const given = new Float64Array(size);
  into.fill(0, 0, size);
  for (let at = 0; at < rule.nodes.length; at += 1) {
    given[0] = rule.weights[at] as number;
    if (groups.length === kits.length) fillDistinct(chances, at, given);
    else fillRepeated(groups, chances, at, given);
    for (let bits = 0; bits < size; bits += 1) into[bits] = (into[bits] as number) + (given[bits] as number);
  }
  for (let bits = 0; bits < size; bits += 1) into[bits] = Math.min(1, into[bits] as number);
  return into;
}

/** One entry of such a table, for any number of runs. */
export function sharedChance(
  kits: readonly number[],
  results: readonly boolean[],
  reactive: ArrayLike<number>,
  model: PreparedShared,
): number {
  const groups = groupsOf(kits);
  const rule = normalAverage(steepnessOf(groups, model));
  const parts = groups.map((group) => ({
    chances: chancesOf(group, reactive[group.kit] as number, model, rule),
    runs: group.runs,
    count: kits.filter((kit, run) => kit === group.kit && results[run] === true).length,
  }));
  const sum = rule.weights.reduce((total, weight, at) => {
    const given = parts.reduce(
      (chance, part) => chance * (part.chances[at * (part.runs + 1) + part.count] as number),
      weight,
    );
    return total + given;
  }, 0);
  return Math.min(1, sum);
}

function groupsOf(kits: readonly number[]): KitRuns[] {
  const groups: KitRuns[] = [];
  for (let run = 0; run < kits.length; run += 1) {
    const kit = kits[run] as number;
    const at = groups.findIndex((group) => group.kit === kit);
    const before = groups[at] ?? { kit, mask: 0, runs: 0 };
    const group = { kit, mask: before.mask | (1 << run), runs: before.runs + 1 };
    if (at < 0) groups.push(group);
    else groups[at] = group;
  }
  return groups;
}

/** How fast the product over all runs turns with the shared effect; a single run has its own effect averaged out. */
function steepnessOf(groups: readonly KitRuns[], { common, own }: PreparedShared): number {
  let sum = 0;
  for (const { kit, runs } of groups) {
    const slope = common[kit] as number;
    sum += (runs * slope * slope) / (runs === 1 ? 1 + own * own : 1);
  }
  return sum;
}

/** Every kit once: the table doubles with each run. */
function fillDistinct(chances: readonly Float64Array[], at: number, into: Float64Array): void {
  let filled = 1;
  for (const chance of chances) {
    const no = chance[2 * at] as number;
    const yes = chance[2 * at + 1] as number;
    for (let bits = 0; bits < filled; bits += 1) {
      const before = into[bits] as number;
      into[bits + filled] = before * yes;
      into[bits] = before * no;
    }
    filled *= 2;
  }
}

function fillRepeated(
  groups: readonly KitRuns[],
  chances: readonly Float64Array[],
  at: number,
  into: Float64Array,
): void {
  into.fill(into[0] as number);
  for (let place = 0; place < groups.length; place += 1) {
    const { mask, runs } = groups[place] as KitRuns;
    const chance = chances[place] as Float64Array;
    for (let bits = 0; bits < into.length; bits += 1) {
      into[bits] = (into[bits] as number) * (chance[at * (runs + 1) + ones(bits & mask)] as number);
    }
  }
}

/**
 * Place by place of the rule: the probability that certain runs of the kit are reactive and its others not, by
 * how many are (0 to `runs`).
 */
function chancesOf(
  { kit, runs }: KitRuns,
  share: number,
  model: PreparedShared,
  rule: GaussRule,
): Float64Array {
  const key = `${kit} ${runs}`;
  const last = model.latest.get(key);
  if (last !== undefined && last.share === share && last.rule === rule) return last.chances;
  const slope = model.common[kit] as number;
  const { own } = model;
  const scale = runs === 1 ? 1 / Math.sqrt(1 + own * own) : 1;
  const threshold = normalQuantile(share) * Math.sqrt(1 + slope * slope + own * own);
  const inner = runs === 1 || own === 0 ? null : normalAverage(runs * own * own);
  const chances = new Float64Array(rule.nodes.length * (runs + 1));
  for (let at = 0; at < rule.nodes.length; at += 1) {
    const border = scale * (threshold + slope * (rule.nodes[at] as number));
    const start = at * (runs + 1);
    if (inner === null) addPowers(border, runs, 1, chances, start);
    else {
      for (let node = 0; node < inner.nodes.length; node += 1) {
        const weight = inner.weights[node] as number;
        addPowers(border + own * (inner.nodes[node] as number), runs, weight, chances, start);
      }
    }
  }
  model.latest.set(key, { share, rule, chances });
  return chances;
}

function addPowers(border: number, runs: number, weight: number, into: Float64Array, start: number): void {
  const rarer = normalCdf(-Math.abs(border));
  const yes = border < 0 ? rarer : 1 - rarer;
  const no = border < 0 ? 1 - rarer : rarer;
  for (let count = 0; count <= runs; count += 1) {
    const chance = runs === 1 ? (count === 1 ? yes : no) : Math.pow(yes, count) * Math.pow(no, runs - count);
    into[start + count] = (into[start + count] as number) + weight * chance;
  }
}

function ones(bits: number): number {
  let count = 0;
  for (let left = bits; left > 0; left &= left - 1) count += 1;
  return count;
}
