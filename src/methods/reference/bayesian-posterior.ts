import { chainDiagnostics } from "../../numeric/chain-diagnostics.ts";
import { kernelDensity } from "../../numeric/kernel-density.ts";
import { placeFinder } from "../../numeric/place-finder.ts";
import { sortedQuantile } from "../../numeric/sorted-quantile.ts";
import type { Posterior } from "./bayesian-fields.ts";
import type { PriorShape } from "./bayesian-priors.ts";
import type { Unknown } from "./bayesian-unknowns.ts";
import { MOST_SHARED } from "./latent-tables.ts";

const MOST_TRACED = 200;
const RANK_BINS = 20;

/** One unknown's posterior beside its prior, with what the chains say of each other. */
export function posteriorOf(
  { kind }: Unknown,
  chains: readonly Float64Array[],
  prior: PriorShape,
  level: number,
  outsidePrior: number,
): Posterior {
  const sorted = pooled(chains).sort();
  const { mean, standardDeviation } = momentsOf(sorted);
  const { rHat, bulkEffective, tailEffective, meanEffective } = chainDiagnostics(chains, sorted);
  const placeOf = placeFinder(sorted);
  const tail = (1 - level) / 2;
  return {
    mean,
    median: sortedQuantile(sorted, 0.5),
    standardDeviation,
    lower: sortedQuantile(sorted, tail),
    upper: sortedQuantile(sorted, 1 - tail),
    prior: {
      mean: prior.mean,
      median: prior.quantile(0.5),
      lower: prior.quantile(tail),
      upper: prior.quantile(1 - tail),
    },
    rHat,
    bulkEffective,
    tailEffective,
    monteCarloError: meanEffective === null ? null : standardDeviation / Math.sqrt(meanEffective),
    outsidePrior,
    density: densityOf(sorted, prior, ENDS[kind]),
    trace: chains.map(thinned),
    ranks: chains.map((chain) => binnedRanks(chain, sorted, placeOf)),
  };
}

function momentsOf(values: Float64Array) {
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += Math.pow(value - mean, 2);
  return { mean, standardDeviation: Math.sqrt(squares / (values.length - 1)) };
}

function pooled(chains: readonly Float64Array[]): Float64Array {
  const length = chains[0]?.length ?? 0;
  const all = new Float64Array(chains.length * length);
  chains.forEach((chain, place) => {
    all.set(chain, place * length);
  });
  return all;
}

const TAIL = 0.001;
const EVEN = 21;
const WITHIN = 40;
/** Shares are looked at no nearer to 0 and 1 than this, where densities may be infinite. */
const EDGE = 1e-9;

/** Where an unknown ends, for one that begins at 0. */
const ENDS = { share: 1, correlation: MOST_SHARED, covariance: null } as const;

/**
 * Both densities side by side. What lies between 0 and an end is smoothed on the logit scale, so that nothing is
 * lost over the ends.
 */
function densityOf(sorted: Float64Array, prior: PriorShape, end: number | null): Posterior["density"] {
  const [low, high] = [sortedQuantile(sorted, TAIL), sortedQuantile(sorted, 1 - TAIL)];
  const least = Math.min(low, prior.quantile(TAIL));
  const most = Math.max(high, prior.quantile(1 - TAIL));
  const places = [
    ...Array.from({ length: EVEN }, (_, k) => least + ((most - least) * k) / (EVEN - 1)),
    ...Array.from({ length: WITHIN }, (_, k) => low + ((high - low) * (k + 0.5)) / WITHIN),
  ].sort((a, b) => a - b);
  if (end === null) {
    const smooth = kernelDensity(sorted);
    return places.map((at) => ({ at, posterior: smooth(at), prior: prior.density(at) }));
  }
  const smooth = kernelDensity(sorted.map((value) => logitOf(inside(value / end))));
  return places.map((place) => {
    const share = inside(place / end);
    const at = share * end;
    return {
      at,
      posterior: smooth(logitOf(share)) / (end * share * (1 - share)),
      prior: prior.density(at),
    };
  });
}

function inside(share: number): number {
  return Math.min(1 - EDGE, Math.max(EDGE, share));
}

function logitOf(share: number): number {
  return Math.log(share / (1 - share));
}

function thinned(chain: Float64Array): number[] {
  const step = Math.ceil(chain.length / MOST_TRACED);
  return Array.from({ length: Math.ceil(chain.length / step) }, (_, k) => chain[k * step] as number);
}

function binnedRanks(chain: Float64Array, sorted: Float64Array, placeOf: (draw: number) => number): number[] {
  const bins = new Array<number>(RANK_BINS).fill(0);
  for (const draw of chain) {
    const bin = Math.floor((RANK_BINS * placeOf(draw)) / sorted.length);
    bins[bin] = (bins[bin] as number) + 1;
  }
  return bins;
}
