import type { RegionProbability } from "./region-probability.ts";

/** The largest probability over the true second proportion, and where it is reached. */
export interface Supremum {
  readonly value: number;
  readonly share: number;
}

export interface NuisanceRange {
  /** First minus second proportion; fixed. */
  readonly difference: number;
  /** Bounds of the second proportion; only what leaves the first one in 0..1 is searched. */
  readonly least: number;
  readonly most: number;
}

/**
 * Grid steps on the scale of asin(sqrt(p)), in units of 1 / sqrt(total): a binomial count has a standard
 * deviation of a half there whatever the proportion, so that no hump of the probability is narrower.
 */
const STEP = 0.2;
/** Humps lower than this share of the highest grid value can't become the highest by refining. */
const WORTH = 0.9;

/**
 * Maximises the probability of a region over the proportion that the hypothesis leaves open: a grid fine
 * enough to meet every hump, then a search within the neighbours of each high grid point.
 *
 * @param enough the search stops as soon as a larger value is met, and returns that one
 * @param guess  a second proportion to try first
 */
export function supremum(
  probability: RegionProbability,
  range: NuisanceRange,
  totals: readonly [number, number],
  enough = Number.POSITIVE_INFINITY,
  guess?: number,
): Supremum {
  const { difference } = range;
  const least = Math.max(range.least, -difference, 0);
  const most = Math.max(least, Math.min(range.most, 1 - difference, 1));
  const at = (share: number) =>
    probability(Math.min(1, Math.max(0, share + difference)), Math.min(1, Math.max(0, share)));
  if (guess !== undefined && guess >= least && guess <= most) {
    const value = at(guess);
    if (value > enough) return { value, share: guess };
  }
  const shares = gridOf(least, most, difference, totals);
  const values: number[] = [];
  let best: Supremum = { value: -1, share: least };
  for (const share of shares) {
    const value = at(share);
    values.push(value);
    if (value > best.value) best = { value, share };
    if (value > enough) return best;
  }
  if (Number.isFinite(enough) && best.value < WORTH * enough) return best;
  const worth = WORTH * best.value;
  values.forEach((value, index) => {
    const [before, after] = [values[index - 1] ?? -1, values[index + 1] ?? -1];
    if (value < worth || value < before || value < after || best.value > enough) return;
    const peak = peakBetween(at, shares[index - 1] ?? least, shares[index + 1] ?? most);
    if (peak.value > best.value) best = peak;
  });
  return best;
}

/** Equal steps for each of the two proportions on its own scale, merged. */
function gridOf(
  least: number,
  most: number,
  difference: number,
  [firstTotal, secondTotal]: readonly [number, number],
): number[] {
  const shares = equalSteps(least, most, secondTotal);
  if (difference !== 0 || firstTotal > secondTotal) {
    const moved = equalSteps(least + difference, most + difference, firstTotal);
    for (const share of moved) shares.push(Math.min(most, Math.max(least, share - difference)));
    shares.sort((one, other) => one - other);
  }
  return shares;
}

function equalSteps(least: number, most: number, total: number): number[] {
  const angle = (share: number) => Math.asin(Math.sqrt(Math.min(1, Math.max(0, share))));
  const [start, end] = [angle(least), angle(most)];
  const steps = Math.max(1, Math.ceil(((end - start) * Math.sqrt(total)) / STEP));
  return Array.from({ length: steps + 1 }, (_, step) => {
    if (step === 0) return least;
    return step === steps ? most : Math.pow(Math.sin(start + ((end - start) * step) / steps), 2);
  });
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Enough for a share to seven digits, and so for a maximum to fourteen. */
const NARROWINGS = 30;

/** The highest point of a single hump, by golden section. */
function peakBetween(at: (share: number) => number, lower: number, upper: number): Supremum {
  let [low, high] = [lower, upper];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [valueLeft, valueRight] = [at(left), at(right)];
  for (let turn = 0; turn < NARROWINGS; turn += 1) {
    if (valueLeft >= valueRight) {
      high = right;
      [right, valueRight] = [left, valueLeft];
      left = high - GOLDEN * (high - low);
      valueLeft = at(left);
    } else {
      low = left;
      [left, valueLeft] = [right, valueRight];
      right = low + GOLDEN * (high - low);
      valueRight = at(right);
    }
  }
  return valueLeft >= valueRight ? { value: valueLeft, share: left } : { value: valueRight, share: right };
}
