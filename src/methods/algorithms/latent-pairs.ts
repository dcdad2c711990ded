import { InputError } from "../../core/input-error.ts";
import { leastPivot, PIVOT_ROUNDING } from "../../numeric/correlation-matrix.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { tetrachoric } from "../../numeric/tetrachoric.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { PreparedPairs } from "./prepared-dependence.ts";

/** Several runs, each seen from its rarer result: small probabilities keep their digits. */
export interface LatentPairs {
  /** Share of the rarer result, run by run: at most 1/2. */
  readonly shares: readonly number[];
  /** Bit i: the rarer result of run i is the non-reactive one. */
  readonly flips: number;
  /** Normal quantiles of the shares. */
  readonly thresholds: readonly number[];
  /** Covariance of the rarer results of two runs, held within what the shares allow. */
  readonly covariances: readonly (readonly number[])[];
}

/** @throws InputError for a kit run twice without a pair of its own */
export function latentPairs(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedPairs,
): LatentPairs {
  let flips = 0;
  const shares = kits.map((kit, run) => {
    const share = reactive[kit] as number;
    if (share <= 0.5) return share;
    flips |= 1 << run;
    return 1 - share;
  });
  const covariances = shares.map(() => shares.map(() => 0));
  for (let first = 0; first < kits.length; first += 1) {
    for (let second = first + 1; second < kits.length; second += 1) {
      const phi = statedPhi(kits[first] as number, kits[second] as number, model);
      const opposite = ((flips >> first) ^ (flips >> second)) & 1;
      const found = covarianceOf(shares[first] as number, shares[second] as number, opposite ? -phi : phi);
      (covariances[first] as number[])[second] = found;
      (covariances[second] as number[])[first] = found;
    }
  }
  return { shares, flips, thresholds: shares.map((share) => normalQuantile(share)), covariances };
}

function covarianceOf(first: number, second: number, phi: number): number {
  if (phi === 0) return 0;
  const { least, most } = dependenceBounds(first, second).covariance;
  const wanted = phi * Math.sqrt(first * (1 - first) * second * (1 - second));
  return Math.min(Math.max(wanted, least), most);
}

function statedPhi(first: number, second: number, { ids, phi }: PreparedPairs): number {
  const stated = phi[first]?.[second];
  if (typeof stated === "number") return stated;
  const id = ids[first] ?? String(first);
  throw new InputError(
    ["input", "dependence", "pairs"],
    `a pair of its own for ${id}, which is run twice: first and second both ${id}`,
    "none",
  );
}

/**
 * The correlations of the normal variables behind three runs or more (tetrachoric correlations of the pairs).
 * A pair of kits met again with the same shares, as in the next triple of one draw, is not computed again.
 */
export function latentCorrelations(
  kits: readonly number[],
  { shares, thresholds, covariances }: LatentPairs,
  model: PreparedPairs,
): number[][] {
  const found = shares.map((_, run) => shares.map((_, other) => (run === other ? 1 : 0)));
  for (let first = 0; first < shares.length; first += 1) {
    for (let second = first + 1; second < shares.length; second += 1) {
      const covariance = covariances[first]?.[second] as number;
      if (covariance === 0) continue;
      const places = [kits[first] as number, kits[second] as number] as const;
      const correlation = remembered(model, places, covariance, shares[first], shares[second], () =>
        tetrachoric(
          thresholds[first] as number,
          thresholds[second] as number,
          Math.max(0, (shares[first] as number) * (shares[second] as number) + covariance),
        ),
      );
      (found[first] as number[])[second] = correlation;
      (found[second] as number[])[first] = correlation;
    }
  }
  return found;
}

const KEPT = 4;

/** The last correlation of a pair of kits, as long as shares and covariance are the very same. */
function remembered(
  { ids, latest }: PreparedPairs,
  [first, second]: readonly [number, number],
  covariance: number,
  shareFirst: number | undefined,
  shareSecond: number | undefined,
  find: () => number,
): number {
  const at = KEPT * (first * ids.length + second);
  if (latest[at] === covariance && latest[at + 1] === shareFirst && latest[at + 2] === shareSecond) {
    return latest[at + 3] as number;
  }
  const found = find();
  latest[at] = covariance;
  latest[at + 1] = shareFirst as number;
  latest[at + 2] = shareSecond as number;
  latest[at + 3] = found;
  return found;
}

/** Whether normal variables with these correlations exist. */
export function holdTogether(correlations: readonly (readonly number[])[]): boolean {
  return leastPivot(correlations) >= -PIVOT_ROUNDING;
}
