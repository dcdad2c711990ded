import { binomialMass } from "../../numeric/binomial.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import type { PrecisionInput, PrecisionOptions } from "./precision.ts";

/** People with whom the interval is short enough on average, and how long it then is. */
export interface ExpectedWidth {
  readonly first: number | null;
  readonly stays: number | null;
  readonly halfWidth: number | null;
}

/**
 * The totals at which the mean half-width falls below the one wanted.
 *
 * From one total n to the next the mean width of every interval but Wald's changes slowly: it falls by no
 * more than the power 1.5 of n / (n + 1), and rises, if at all, by no more than the root of (n + 1) / n
 * (the tests hold both against every total of a grid). So totals between which it can't have crossed the
 * width wanted are passed over. Wald's, without length where all are alike, is followed from one to the next.
 */
export function expectedWidth(input: PrecisionInput, options: PrecisionOptions): ExpectedWidth {
  const everyTotal = options.method === "wald" || options.method === "wald_corrected";
  let first: number | null = null;
  let stays: number | null = null;
  let halfWidth: number | null = null;
  for (let total = 1; total <= options.horizon; ) {
    const mean = meanHalfWidth(total, input.expected, options);
    const ratio = mean / input.halfWidth;
    if (ratio > 1) [stays, halfWidth] = [null, null];
    else {
      first ??= total;
      if (stays === null) [stays, halfWidth] = [total, mean];
    }
    const growth = ratio > 1 ? ratio ** (1 / FALL) : ratio ** (-1 / RISE);
    total = everyTotal ? total + 1 : nextTotal(total, growth, options.horizon);
  }
  return { first, stays, halfWidth };
}

/** Powers of the total that bound how fast a mean width falls and rises. */
export const FALL = 1.5;
export const RISE = 0.5;

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
