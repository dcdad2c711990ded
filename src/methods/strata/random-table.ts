import type { RandomSource } from "../../core/random.ts";
import { logGamma } from "../../numeric/gamma-function.ts";

/**
 * Random tables with the margins given: how the counted people fall on the strata if all strata are
 * alike. Each stratum's count is drawn from a hypergeometric distribution given those before it.
 *
 * @param totals people in each stratum
 * @param counted people counted over all strata
 * @returns a function that draws one table: one count per stratum, in their order
 */
export function randomTables(totals: readonly number[], counted: number): (random: RandomSource) => number[] {
  const everybody = totals.reduce((sum, total) => sum + total, 0);
  const logFactorials = Float64Array.from({ length: everybody + 1 }, (_, at) => logGamma(at + 1));
  return (random) => {
    let rest = everybody;
    let left = counted;
    return totals.map((total) => {
      rest -= total;
      const drawn = randomHypergeometric(total, rest, left, random, logFactorials);
      left -= drawn;
      return drawn;
    });
  };
}

/** By inversion from the most probable number outwards: time grows with the standard deviation. */
function randomHypergeometric(
  inside: number,
  outside: number,
  draws: number,
  random: RandomSource,
  logFactorials: Float64Array,
): number {
  const least = Math.max(0, draws - outside);
  const most = Math.min(draws, inside);
  if (least === most) return least;
  const mode = Math.floor(((draws + 1) * (inside + 1)) / (inside + outside + 2));
  let below = Math.min(most, Math.max(least, mode));
  let above = below;
  const logChoose = (all: number, some: number) =>
    (logFactorials[all] as number) - (logFactorials[some] as number) - (logFactorials[all - some] as number);
  let massBelow = Math.exp(
    logChoose(inside, below) + logChoose(outside, draws - below) - logChoose(inside + outside, draws),
  );
  let massAbove = massBelow;
  let remaining = random() - massBelow;
  if (remaining < 0) return below;
  while (below > least || above < most) {
    if (above < most) {
      massAbove *= ((inside - above) * (draws - above)) / ((above + 1) * (outside - draws + above + 1));
      above += 1;
      remaining -= massAbove;
      if (remaining < 0) return above;
    }
    if (below > least) {
      massBelow *= (below * (outside - draws + below)) / ((inside - below + 1) * (draws - below + 1));
      below -= 1;
      remaining -= massBelow;
      if (remaining < 0) return below;
    }
  }
  return above;
}
