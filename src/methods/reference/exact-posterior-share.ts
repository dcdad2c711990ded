import { findRoot } from "../../numeric/root.ts";
import type { ExactPosterior } from "./exact-posterior-fields.ts";

/** What is known of a share, as a distribution. */
export interface ShareDistribution {
  readonly mean: number;
  readonly standardDeviation: number;
  /** Chance to be at most the share with these log odds. */
  readonly cdf: (logOdds: number) => number;
  /** At a share strictly between 0 and 1. */
  readonly density: (share: number) => number;
}

/** Log odds at which the doubles end. */
const OUTERMOST = 700;

/**
 * The share below which it lies with this chance.
 * @param absolute how far the log odds may be off
 */
export function quantileOf(
  { mean, standardDeviation, cdf }: ShareDistribution,
  chance: number,
  absolute = 1e-11,
): number {
  const start = Math.min(30, Math.max(-30, Math.log(mean / (1 - mean))));
  const width = Math.min(2, Math.max(1e-6, standardDeviation / (mean * (1 - mean))));
  const excess = (logOdds: number) => cdf(logOdds) - chance;
  const side = excess(start) < 0 ? 1 : -1;
  let near = start;
  for (let step = width; ; step *= 2) {
    const far = Math.min(OUTERMOST, Math.max(-OUTERMOST, near + side * step));
    if (excess(far) >= 0 === side > 0) {
      const { root } = findRoot(excess, Math.min(near, far), Math.max(near, far), { absolute });
      return 1 / (1 + Math.exp(-root));
    }
    if (Math.abs(far) === OUTERMOST) return side > 0 ? 1 : 0;
    near = far;
  }
}

/** A share before and after the data, with points for a drawing. */
export function summarised(
  after: ShareDistribution,
  before: ShareDistribution,
  level: number,
): ExactPosterior {
  const [low, high] = [(1 - level) / 2, (1 + level) / 2];
  return {
    mean: after.mean,
    median: quantileOf(after, 0.5),
    standardDeviation: after.standardDeviation,
    lower: quantileOf(after, low),
    upper: quantileOf(after, high),
    prior: {
      mean: before.mean,
      median: quantileOf(before, 0.5),
      lower: quantileOf(before, low),
      upper: quantileOf(before, high),
    },
    density: pointsOf(after, before),
  };
}

const OUTER = 0.001;

function pointsOf(after: ShareDistribution, before: ShareDistribution): ExactPosterior["density"] {
  const roughly = (of: ShareDistribution) => [OUTER, 1 - OUTER].map((chance) => quantileOf(of, chance, 1e-3));
  const [least = 0, most = 1] = roughly(after);
  const [leastBefore = 0, mostBefore = 1] = roughly(before);
  const evenly = (from: number, to: number, points: number, shift: number) =>
    Array.from({ length: points }, (_, k) => from + ((to - from) * (k + shift)) / (points - 1 + 2 * shift));
  const places = [
    ...evenly(Math.min(least, leastBefore), Math.max(most, mostBefore), 21, 0),
    ...evenly(least, most, 40, 0.5),
  ];
  return places
    .filter((at) => at > 0 && at < 1)
    .sort((a, b) => a - b)
    .map((at) => ({ at, posterior: after.density(at), prior: before.density(at) }))
    .filter(({ posterior, prior }) => Number.isFinite(posterior) && Number.isFinite(prior));
}
