import { scaleLinear } from "d3-scale";
import type { Estimate } from "../../core/estimate.ts";

/** Room on both sides of a strip for dots, arrows and the outer labels of its scale. */
export const STRIP_MARGIN = 12;
export const STRIP_WIDTH = 210;

export type StripDomain = readonly [from: number, to: number];

/** Share to pixel, the scale's left end being 0. */
export function stripScale(domain: StripDomain, width: number) {
  return scaleLinear([domain[0], domain[1]], [0, width]);
}

/** Labelled shares of a strip's scale: about one for each 50 pixels, ends included where they are round. */
export function stripTicks(domain: StripDomain, width: number): number[] {
  const ticks = stripScale(domain, width).ticks(Math.max(2, Math.floor(width / 50)));
  return ticks.length >= 2 ? ticks : [domain[0], domain[1]];
}

const CUTS = [0.99, 0.98, 0.95, 0.9, 0.85, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2];

/**
 * A domain for strips that share one scale. Measures that should be high (sensitivity, specificity)
 * end at 100 %, those that should be low (invalid results) begin at 0 %. Below a fifth the scale
 * shows everything. Estimates and criteria lie inside; a long interval may run out of it with an arrow.
 *
 * @param estimates what the strips show; entries without a value are passed over
 * @param criteria  thresholds, shares
 */
export function stripDomain(
  estimates: readonly Estimate[],
  criteria: readonly number[] = [],
  should: "be_high" | "be_low" = "be_high",
): StripDomain {
  const toShare = (share: number) => (should === "be_high" ? share : 1 - share);
  const far = estimates.flatMap(({ value, lower, upper }) => {
    const limit = should === "be_high" ? lower : upper;
    return value === null ? [] : [toShare(value), toShare(limit ?? value)];
  });
  const lowest = Math.min(...far, ...criteria.map(toShare));
  const cut = Number.isFinite(lowest)
    ? (CUTS.find((share) => share <= lowest - (1 - lowest) * 0.02) ?? 0)
    : 0;
  return should === "be_high" ? [cut, 1] : [0, Number((1 - cut).toFixed(2))];
}

/**
 * A domain for strips of differences that share one scale: zero and every margin inside it, and the
 * estimates with their limits; ends are round. A limit far beyond the rest may run out with an arrow.
 *
 * @param margins with their sign: a tolerated loss of five points is -0.05
 */
export function differenceDomain(
  estimates: readonly Estimate[],
  margins: readonly number[] = [],
): StripDomain {
  const known = estimates.flatMap(({ value, lower, upper }) =>
    [value, lower, upper].filter((share) => share !== null),
  );
  const ends = [Math.min(...margins, ...known, -0.01), Math.max(...margins, ...known, 0.01)];
  const [least = -0.1, most = 0.1] = scaleLinear().domain(ends).nice(5).domain();
  return [Math.max(-1, least), Math.min(1, most)];
}

/** A domain for coefficients such as kappa: from 0, or from a round number below where one is negative. */
export function coefficientDomain(estimates: readonly Estimate[]): StripDomain {
  const lowest = Math.min(0, ...estimates.flatMap(({ value, lower }) => [lower ?? value ?? 0]));
  return [Math.max(-1, Math.floor(lowest * 5) / 5), 1];
}
