import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { type IntervalSettings, proportionInterval } from "../proportion/proportion-interval.ts";
import type { PrecisionInput, PrecisionOptions } from "./precision-fields.ts";

/** People with whom the interval is short enough as probably as wanted, and how probably it then is. */
export interface AssuredWidth {
  readonly first: number | null;
  readonly stays: number | null;
  readonly probability: number | null;
}

/** The totals at which the probability of an interval that is short enough reaches the assurance. */
export function assuredWidth(
  { expected, halfWidth }: PrecisionInput,
  { method, level, assurance, horizon }: PrecisionOptions,
): AssuredWidth {
  const chances = shortEnough(expected, 2 * halfWidth, { method, level });
  let first: number | null = null;
  let stays: number | null = null;
  for (let total = 1; total <= horizon; total += 1) {
    if (!chances.reaches(total, assurance)) stays = null;
    else {
      first ??= total;
      stays ??= total;
    }
  }
  return { first, stays, probability: stays === null ? null : chances.of(stays) };
}

/** How probable an interval that is short enough is among so many, and whether that is as much as wanted. */
interface Chances {
  of(total: number): number;
  reaches(total: number, assurance: number): boolean;
}

/**
 * All intervals offered are as long for a result as for its mirror image, and all but Blaker's grow longer up
 * to the middle (the tests hold both against every result of a grid): the short ones lie outside two borders.
 * Quick where totals are asked for one after the other.
 */
function shortEnough(expected: number, width: number, settings: IntervalSettings): Chances {
  if (settings.method === "blaker") return shortEnoughBlaker(expected, width, settings);
  const border = borderFollower(width, settings);
  const of = (total: number) => outside(border(total), total, expected);
  return { of, reaches: (total, assurance) => of(total) >= assurance };
}

/** The largest count up to the middle whose interval is short enough, -1 if none is; near that of the last total. */
function borderFollower(width: number, settings: IntervalSettings): (total: number) => number {
  let border = -1;
  return (total) => {
    const middle = Math.floor(total / 2);
    const short = (count: number) => widthOf(count, total, settings) <= width;
    border = Math.min(border, middle);
    while (border < middle && short(border + 1)) border += 1;
    while (border >= 0 && !short(border)) border -= 1;
    return border;
  };
}

function widthOf(count: number, total: number, settings: IntervalSettings): number {
  const { lower, upper } = proportionInterval(count, total, settings);
  return upper - lower;
}

/** P(count <= border or count >= total - border), a border of -1 being none. */
function outside(border: number, total: number, expected: number): number {
  if (border < 0) return 0;
  if (2 * border + 1 >= total) return 1;
  const low = binomialCdf(border, total, expected, "lower");
  return Math.min(1, low + binomialCdf(total - border - 1, total, expected, "upper"));
}

/**
 * Blaker's interval lies inside that of Clopper and Pearson at its level, and contains that with twice the
 * error: the borders of these two leave few results, and few totals, for which it must be found itself. Those
 * are gone through from the likeliest on, until it is plain whether the assurance is reached.
 */
function shortEnoughBlaker(expected: number, width: number, settings: IntervalSettings): Chances {
  const { level = 0.95 } = settings;
  const wholly = (total: number) => Math.floor(total / 2);
  const surely = borderFollower(width, { method: "clopper_pearson", level });
  const perhaps =
    level > 0.5 ? borderFollower(width, { method: "clopper_pearson", level: 2 * level - 1 }) : wholly;
  const isShort = (total: number) => {
    const [inner, outer] = [surely(total), perhaps(total)];
    return (count: number) => {
      const smaller = Math.min(count, total - count);
      if (smaller <= inner || smaller > outer) return smaller <= inner;
      return widthOf(smaller, total, settings) <= width;
    };
  };
  const of = (total: number) => sumFromLikeliest(total, expected, isShort(total), null);
  const reaches = (total: number, assurance: number) => {
    if (outside(surely(total), total, expected) >= assurance) return true;
    if (outside(perhaps(total), total, expected) < assurance) return false;
    return sumFromLikeliest(total, expected, isShort(total), assurance) >= assurance;
  };
  return { of, reaches };
}

/**
 * The probability of the results for which something holds, added up from the likeliest result to both sides.
 * Where it is given what is enough: broken off as soon as it is sure to reach or to miss that.
 */
function sumFromLikeliest(
  total: number,
  expected: number,
  holds: (count: number) => boolean,
  enough: number | null,
): number {
  const [most, mostOthers] = enough === null ? [2, 2] : [enough, 1 - enough + ROUNDED];
  let up = Math.min(total, Math.floor((total + 1) * expected));
  let down = up - 1;
  const massAt = (count: number) => (count < 0 || count > total ? 0 : binomialMass(count, total, expected));
  let [upper, lower] = [massAt(up), massAt(down)];
  let [sum, others] = [0, 0];
  while (Math.max(upper, lower) > NEGLIGIBLE && sum < most && others <= mostOthers) {
    const takesUpper = upper >= lower;
    const [count, mass] = takesUpper ? [up, upper] : [down, lower];
    if (holds(count)) sum += mass;
    else others += mass;
    if (takesUpper) upper = massAt(++up);
    else lower = massAt(--down);
  }
  return Math.min(1, sum);
}

/** Room for the rounding of sums of masses. */
const ROUNDED = 1e-12;
const NEGLIGIBLE = 1e-18;
