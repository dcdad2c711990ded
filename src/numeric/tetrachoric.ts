import { InputError } from "../core/input-error.ts";
import { bivariateExcess } from "./bivariate-normal.ts";
import { normalCdf } from "./normal.ts";
import { requireNumber, requireProbability } from "./require.ts";

const TWO_PI = 2 * Math.PI;
const RIGHT_ANGLE = Math.PI / 2;
/** After a step this short the next would be below rounding: the steps' errors are cubed. */
const LAST_STEP = 1e-5;
const MOST_STEPS = 100;

/**
 * The correlation of two standard normal variables with P(X <= x and Y <= y) as given: the tetrachoric
 * correlation of a 2 by 2 table with those margins. 1 and -1 at the ends of what the margins allow.
 *
 * Halley's steps on the arcsine of the correlation, held in a bracket.
 * Where the margins are extreme the correlation is known to fewer digits than the probability.
 *
 * @param x normal quantile of the first share; finite, as `y`
 * @param both share of the first and the second together
 * @throws InputError where the margins don't allow `both` (beyond rounding)
 * Source: Pearson 1900, Philosophical Transactions A 195, 1-47 (recalled); the slope is the normal density.
 */
export function tetrachoric(x: number, y: number, both: number): number {
  requireNumber("x", x);
  requireNumber("y", y);
  requireProbability("both", both);
  const first = normalCdf(x);
  const second = normalCdf(y);
  const most = Math.min(first, second);
  const least = x + y > 0 ? Math.max(0, first - normalCdf(y, "upper")) : 0;
  const rounding = 4 * Number.EPSILON * (1 + x * x + y * y) * most;
  if (both > most + 1e-12 || both < least - 1e-12) {
    throw new InputError(["both"], `a share from ${least} to ${most}`, both);
  }
  if (both >= most - rounding) return 1;
  if (both <= least + rounding) return -1;
  const wanted = both - first * second;
  return wanted === 0 ? 0 : Math.sin(angleFor(x, y, wanted));
}

/** The arcsine of the correlation, inside a bracket that every step narrows. */
function angleFor(x: number, y: number, wanted: number): number {
  const halfSquares = (x * x + y * y) / 2;
  let low = wanted < 0 ? -RIGHT_ANGLE : 0;
  let high = wanted < 0 ? 0 : RIGHT_ANGLE;
  let angle = start(x * y, TWO_PI * wanted * Math.exp(halfSquares), low, high);
  for (let step = 0; step < MOST_STEPS && high - low > Number.EPSILON; step += 1) {
    const sine = Math.sin(angle);
    const missing = wanted - bivariateExcess(x, y, sine);
    if (missing > 0) low = angle;
    else high = angle;
    const cosine = Math.cos(angle);
    const exponent = (x * y * sine - halfSquares) / (cosine * cosine);
    const newton = (TWO_PI * missing) / Math.exp(exponent);
    const bend = (x * y + 2 * sine * exponent) / cosine;
    const moved = newton / Math.min(2, Math.max(0.5, 1 + (newton * bend) / 2));
    if (Math.abs(newton) * (1 + Math.abs(bend)) < LAST_STEP)
      return Math.min(high, Math.max(low, angle + moved));
    const next = angle + moved;
    angle = next > low && next < high ? next : (low + high) / 2;
  }
  return angle;
}

/** From the first two terms of the tetrachoric series: r + x y r^2 / 2 = scaled covariance. */
function start(product: number, scaled: number, low: number, high: number): number {
  const under = 1 + 2 * product * scaled;
  const correlation = under > 0 ? (2 * scaled) / (1 + Math.sqrt(under)) : scaled;
  const angle = Math.asin(Math.min(1, Math.max(-1, correlation)));
  return Math.min(high === 0 ? 0 : high - 0.01, Math.max(low === 0 ? 0 : low + 0.01, angle));
}
