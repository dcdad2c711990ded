/** Lags beyond this are not looked at: chains that remember longer have hardly any effective draws anyway. */
const MOST_LAGS = 2000;

/**
 * How many independent draws would give the mean as precisely as these chains do: all draws over the
 * autocorrelation time, which is added up over pairs of lags until a pair is negative (Geyer), made to fall
 * steadily. At most draws × log10(draws), since chains can do better than independent draws, but not for ever.
 *
 * @param chains two or more series of equal length, 4 or more draws each
 * @returns `null` where nothing varies
 * Source: vehtari2021 (memory); the sums run over the draws themselves
 */
export function effectiveDraws(chains: readonly Float64Array[]): number | null {
  const length = chains[0]?.length ?? 0;
  const total = chains.length * length;
  const means = chains.map(meanOf);
  const covariance = (lag: number) =>
    chains.reduce((sum, chain, place) => sum + autocovariance(chain, means[place] as number, lag), 0) /
    chains.length;
  const within = (covariance(0) * length) / (length - 1);
  const spread = (within * (length - 1)) / length + varianceOf(means);
  if (!(spread > 0)) return null;
  const correlation = (lag: number) => (lag === 0 ? 1 : 1 - (within - covariance(lag)) / spread);
  let sum = 0;
  let last = Number.POSITIVE_INFINITY;
  for (let lag = 0; lag + 1 < Math.min(length, MOST_LAGS); lag += 2) {
    const pair = correlation(lag) + correlation(lag + 1);
    if (!(pair > 0)) break;
    last = Math.min(last, pair);
    sum += last;
  }
  const time = Math.max(2 * sum - 1, 1 / Math.log10(total));
  return total / time;
}

/**
 * Potential scale reduction: spread of all draws over the spread within the chains; 1 where the chains agree.
 * Source: vehtari2021, formula of Gelman and Rubin (memory)
 */
export function potentialScale(chains: readonly Float64Array[]): number | null {
  const length = chains[0]?.length ?? 0;
  const means = chains.map(meanOf);
  const within =
    chains.reduce((sum, chain, place) => sum + autocovariance(chain, means[place] as number, 0), 0) /
    chains.length;
  if (!(within > 0)) return null;
  return Math.sqrt((within + varianceOf(means)) / ((within * length) / (length - 1)));
}

/** Each chain cut into its first and its second half; of an odd number the middle draw is left out. */
export function halves(chains: readonly Float64Array[]): Float64Array[] {
  return chains.flatMap((chain) => {
    const half = Math.floor(chain.length / 2);
    return [chain.subarray(0, half), chain.subarray(chain.length - half)];
  });
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < values.length; k += 1) sum += values[k] as number;
  return sum / values.length;
}

function varianceOf(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
}

function autocovariance(values: Float64Array, mean: number, lag: number): number {
  let sum = 0;
  for (let k = 0; k + lag < values.length; k += 1) {
    sum += ((values[k] as number) - mean) * ((values[k + lag] as number) - mean);
  }
  return sum / values.length;
}
