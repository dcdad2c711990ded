import { binomialMass } from "../../numeric/binomial.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import type { PrecisionInput, PrecisionOptions } from "./precision-fields.ts";

/** People with whom the interval is short enough on average, and how long it then is. */
export interface ExpectedWidth {
  readonly first: number | null;
  readonly stays: number | null;
  readonly halfWidth: number | null;
}

/**
 * The totals at which the mean half-width falls to the one wanted.
 *
 * From one total n to the next the mean width changes slowly: it falls by no more than the power FALL, and rises
 * by no more than the power RISE, of n / (n + 1) (the tests hold both against every total of a grid). So totals
 * among which it can't have crossed the width wanted are passed over. Blaker's may rise by more, but is never
 * above Clopper and Pearson's, which only falls: it is followed from one total to the next until theirs is
 * short enough.
 */
export function expectedWidth(input: PrecisionInput, options: PrecisionOptions): ExpectedWidth {
  const { expected, halfWidth: wanted } = input;
  let first: number | null = null;
  let stays: number | null = null;
  let halfWidth: number | null = null;
  for (let total = 1; total <= options.horizon; ) {
    const mean = meanHalfWidth(total, expected, options);
    const ratio = mean / wanted;
    if (ratio > 1) [stays, halfWidth] = [null, null];
    else {
      first ??= total;
      if (stays === null) [stays, halfWidth] = [total, mean];
    }
    if (ratio > 1) total = nextTotal(total, Math.pow(ratio, 1 / FALL), options.horizon);
    else if (options.method !== "blaker") total = nextTotal(total, riseTo(ratio), options.horizon);
    else if (meanHalfWidth(total, expected, { ...options, method: "clopper_pearson" }) <= wanted) break;
    else total += 1;
  }
  return { first, stays, halfWidth };
}

/** Powers of the total that bound how fast a mean width falls and rises. */
export const FALL = 1.25;
export const RISE = 1.25;

/** No length at all, as Wald's at a total of 1, says nothing of the next one. */
function riseTo(ratio: number): number {
  return ratio > 0 ? Math.pow(ratio, -1 / RISE) : 1;
}

/** The last total is always looked at. */
function nextTotal(total: number, growth: number, horizon: number): number {
  const next = Math.max(total + 1, Math.floor(total * growth));
  return total < horizon ? Math.min(next, horizon) : next;
}

/** Masses below this share of the largest add nothing. */
const NEGLIGIBLE = 1e-17;

/**
 * The mean half-width of the interval among so many, if the truth is `expected`. The masses are followed from
 * the likeliest result to both sides.
 */
export function meanHalfWidth(
  total: number,
  expected: number,
  { method, level }: Pick<PrecisionOptions, "method" | "level">,
): number {
  const settings = { method, level };
  const widthOf = (count: number) => {
    const { lower, upper } = proportionInterval(count, total, settings);
    return upper - lower;
  };
  if (expected === 0 || expected === 1) return widthOf(total * expected) / 2;
  const mode = Math.min(total, Math.floor((total + 1) * expected));
  const largest = binomialMass(mode, total, expected);
  const odds = expected / (1 - expected);
  let sum = largest * widthOf(mode);
  let mass = largest;
  for (let count = mode; count < total && mass > NEGLIGIBLE * largest; count += 1) {
    mass *= ((total - count) / (count + 1)) * odds;
    sum += mass * widthOf(count + 1);
  }
  mass = largest;
  for (let count = mode; count > 0 && mass > NEGLIGIBLE * largest; count -= 1) {
    mass *= count / (total - count + 1) / odds;
    sum += mass * widthOf(count - 1);
  }
  return sum / 2;
}
