import type { CompiledAlgorithms, Unit, Weight } from "./compiled-paths.ts";

/** What an algorithm does with the people of each truth, by place in a vector of `WIDTH` numbers. */
export const RESULT = {
  diseased: { positive: 0, negative: 1, inconclusive: 2, lost: 3, kits: 4 },
  nondiseased: { positive: 5, negative: 6, inconclusive: 7, lost: 8, kits: 9 },
} as const;
export const WIDTH = 10;
const HALF = 5;

/** Fills the cells of every table for one truth, from the shares of reactive results by kit. */
export type FillCells = (cells: Float64Array, reactive: Float64Array) => void;

/** What is known of the kits in one draw, by kit. */
export interface KitShares {
  readonly sensitivity: ArrayLike<number>;
  readonly specificity: ArrayLike<number>;
  readonly invalid: ArrayLike<number>;
  readonly price: ArrayLike<number>;
}

/** Puts the shares of one draw through all algorithms: WIDTH numbers each, in the order of the algorithms. */
export type Evaluate = (shares: KitShares, into: Float64Array) => void;

/**
 * @param fill how the cells of a truth are found: the dependence among its people
 * @returns a function that needs no new memory from draw to draw
 */
export function evaluator(
  compiled: CompiledAlgorithms,
  fill: { readonly diseased: FillCells; readonly nondiseased: FillCells },
): Evaluate {
  const { kits, units, weights, bills } = compiled;
  const reactive = new Float64Array(kits);
  const cells = new Float64Array(compiled.cells);
  const none = new Float64Array(units.length);
  const devices = new Float64Array(units.length);
  const weightOf = new Float64Array(weights.length);
  const billOf = new Float64Array(bills.length);
  return (shares, into) => {
    for (const [at, unit] of units.entries()) chances(unit, at, shares.invalid, none, devices);
    for (let at = 0; at < weights.length; at += 1) weightOf[at] = product(weights[at] as Weight, none);
    for (let at = 0; at < bills.length; at += 1) {
      let sum = 0;
      for (const unit of bills[at] as readonly number[]) {
        sum += (devices[unit] as number) * (shares.price[(units[unit] as Unit).kit] as number);
      }
      billOf[at] = sum;
    }
    for (let kit = 0; kit < kits; kit += 1) reactive[kit] = shares.sensitivity[kit] as number;
    fill.diseased(cells, reactive);
    addPaths(compiled, cells, weightOf, billOf, into, 0);
    for (let kit = 0; kit < kits; kit += 1) reactive[kit] = 1 - (shares.specificity[kit] as number);
    fill.nondiseased(cells, reactive);
    addPaths(compiled, cells, weightOf, billOf, into, HALF);
  };
}

/** Chance that every run at a place is invalid, and mean number of devices used there. */
function chances(
  { kit, again }: Unit,
  at: number,
  invalid: ArrayLike<number>,
  none: Float64Array,
  devices: Float64Array,
) {
  const share = invalid[kit] as number;
  let still = 1;
  let used = 0;
  for (let run = 0; run <= again; run += 1) {
    used += still;
    still *= share;
  }
  none[at] = still;
  devices[at] = used;
}

function product({ valid, invalid, share }: Weight, none: Float64Array): number {
  let weight = share;
  for (const unit of valid) weight *= 1 - (none[unit] as number);
  for (const unit of invalid) weight *= none[unit] as number;
  return weight;
}

/**
 * The mean number of devices at a step is the same whatever is found there, so that a path may be charged
 * with the mean of every step on it: summed over paths that is exactly the mean cost.
 */
function addPaths(
  { algorithms, starts, end, cell, weight, bill }: CompiledAlgorithms,
  cells: Float64Array,
  weightOf: Float64Array,
  billOf: Float64Array,
  into: Float64Array,
  half: number,
) {
  for (let algorithm = 0; algorithm < algorithms; algorithm += 1) {
    const place = algorithm * WIDTH + half;
    for (let part = 0; part < HALF; part += 1) into[place + part] = 0;
    const last = starts[algorithm + 1] as number;
    for (let path = starts[algorithm] as number; path < last; path += 1) {
      const probability =
        (weightOf[weight[path] as number] as number) * (cells[cell[path] as number] as number);
      const ended = place + (end[path] as number);
      into[ended] = (into[ended] as number) + probability;
      into[place + 4] = (into[place + 4] as number) + probability * (billOf[bill[path] as number] as number);
    }
  }
}
