import type { Dependence } from "./fields.ts";
import type { Truth } from "./model.ts";
import { pairCheck, requireTogether } from "./pair-check.ts";
import { pairsTable } from "./pairs-table.ts";
import {
  type PreparedDependence,
  type PreparedIndependence,
  type PreparedShared,
  prepareDependence,
  type ReactiveShare,
} from "./prepared-dependence.ts";
import { sharedChance, sharedTable } from "./shared-table.ts";

/** One valid run: which kit (its place in the list of kits), and what it showed. */
export interface RunResult {
  readonly kit: number;
  readonly reactive: boolean;
}

/**
 * Probability that valid runs give these results among people of one truth. The order of the runs does not
 * matter; invalid runs are left out by the caller, as they say nothing of the others. No runs: 1.
 */
export type Joint = (runs: readonly RunResult[]) => number;

/**
 * The joint probabilities of results under a stated dependence, remembered by the kits run.
 *
 * @param kits  in the order by which runs name them
 * @param truth whose dependence holds; the shares of `kits` must be those of the same truth
 * @returns a function; it throws an InputError for a kit run twice without a pair of its own, and for
 *   correlations that can't hold together
 * @throws InputError naming the pair, and the bounds, where the kits' shares don't allow the phi stated
 */
export function jointOf(kits: readonly ReactiveShare[], dependence: Dependence, truth: Truth): Joint {
  const model = prepareDependence(
    kits.map(({ id }) => id),
    dependence,
    truth,
  );
  const reactive = kits.map((kit) => kit.reactive);
  if (dependence.kind === "pairs") pairCheck(kits, dependence, truth);
  const found = new Map<string, Float64Array | number>();
  const remembered = <Found extends Float64Array | number>(key: string, find: () => Found): Found => {
    const value = (found.get(key) as Found | undefined) ?? find();
    found.set(key, value);
    return value;
  };
  return (runs) => {
    const sorted = [...runs].sort((one, other) => one.kit - other.kit || +other.reactive - +one.reactive);
    const places = sorted.map(({ kit }) => kit);
    const results = sorted.map((run) => run.reactive);
    if (model.kind !== "pairs" && sorted.length > MOST_IN_TABLE) {
      const key = sorted.map((run) => `${run.kit}${run.reactive ? "+" : "-"}`).join(" ");
      return remembered(key, () => chanceOf(places, results, reactive, model));
    }
    const table = remembered(places.join(" "), () => {
      if (model.kind === "pairs") requireTogether(places, reactive, model);
      return jointTable(places, reactive, model);
    });
    return table[results.reduce((bits, yes, at) => (yes ? bits | (1 << at) : bits), 0)] as number;
  };
}

/** Longer lists of runs than this are not tabled, but looked up result by result. */
const MOST_IN_TABLE = 6;

function chanceOf(
  kits: readonly number[],
  results: readonly boolean[],
  reactive: readonly number[],
  model: PreparedIndependence | PreparedShared,
): number {
  if (model.kind === "shared") return sharedChance(kits, results, reactive, model);
  return kits.reduce((product, kit, run) => {
    const share = reactive[kit] as number;
    return product * (results[run] === true ? share : 1 - share);
  }, 1);
}

/**
 * Probabilities of all result patterns of a few runs: entry `bits` is that of run i reactive where bit i is 1.
 * Made for many draws: shares that don't allow the stated phi take the nearest one they allow (`jointOf`
 * refuses them).
 *
 * @param kits     kit of each run, as its place in the list of kits; the same place twice is a repeat
 * @param reactive share of reactive results by kit, 0 to 1, all within the truth of the model
 * @param into     written to and returned where given; 2^runs long
 * @throws InputError for a kit run twice without a pair of its own
 */
export function jointTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedDependence,
  into: Float64Array = new Float64Array(1 << kits.length),
): Float64Array {
  if (model.kind === "pairs") return pairsTable(kits, reactive, model, into);
  if (model.kind === "shared") return sharedTable(kits, reactive, model, into);
  return independentTable(kits, reactive, into);
}

function independentTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  into: Float64Array,
): Float64Array {
  into[0] = 1;
  for (let run = 0; run < kits.length; run += 1) {
    const share = reactive[kits[run] as number] as number;
    const half = 1 << run;
    for (let bits = 0; bits < half; bits += 1) {
      const before = into[bits] as number;
      into[bits + half] = before * share;
      into[bits] = before * (1 - share);
    }
  }
  return into;
}
