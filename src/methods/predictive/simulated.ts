/** A number estimated from draws, with the standard error that the finite number of draws leaves. */
export interface WithError {
  readonly value: number;
  readonly error: number;
}

/** What a set of draws says: mean, median and percentile limits. */
export interface Simulated {
  readonly mean: WithError;
  readonly median: WithError;
  readonly lower: WithError;
  readonly upper: WithError;
}

/**
 * Summary of draws. Percentiles are interpolated between neighbouring draws; their error is half the
 * distance between the draws one binomial standard deviation of ranks below and above.
 *
 * @param draws at least 2 finite numbers; sorted in place
 */
export function simulated(draws: Float64Array, level: number): Simulated {
  draws.sort();
  const total = draws.length;
  const mean = draws.reduce((sum, draw) => sum + draw, 0) / total;
  const squares = draws.reduce((sum, draw) => sum + Math.pow(draw - mean, 2), 0);
  return {
    mean: { value: mean, error: Math.sqrt(squares / (total - 1) / total) },
    median: percentile(draws, 0.5),
    lower: percentile(draws, (1 - level) / 2),
    upper: percentile(draws, (1 + level) / 2),
  };
}

function percentile(sorted: Float64Array, share: number): WithError {
  const reach = Math.sqrt((share * (1 - share)) / sorted.length);
  const spread = at(sorted, Math.min(1, share + reach)) - at(sorted, Math.max(0, share - reach));
  return { value: at(sorted, share), error: spread / 2 };
}

function at(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] ?? 0;
  const high = sorted[Math.min(sorted.length - 1, below + 1)] ?? low;
  return low + (place - below) * (high - low);
}
