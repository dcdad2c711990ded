import { normalCdf, normalQuantile } from "../../numeric/normal.ts";

/** Limits that a bootstrap distribution gives. */
export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** The smallest replicate with at least this share of them at or below it. `sorted` is not empty. */
function replicateAt(sorted: Float64Array, share: number): number {
  const rank = Math.ceil(share * sorted.length * (1 - 4 * Number.EPSILON));
  return sorted[Math.min(sorted.length, Math.max(1, rank)) - 1] as number;
}

export function percentileLimits(sorted: Float64Array, level: number): Limits {
  return { lower: replicateAt(sorted, (1 - level) / 2), upper: replicateAt(sorted, (1 + level) / 2) };
}

/** Half the distance between the replicates one binomial standard deviation of ranks on either side. */
export function limitError(sorted: Float64Array, share: number): number {
  const reach = Math.sqrt((share * (1 - share)) / sorted.length);
  return (
    (replicateAt(sorted, Math.min(1, share + reach)) - replicateAt(sorted, Math.max(0, share - reach))) / 2
  );
}

/**
 * How far the median of the replicates lies from the estimate, in normal units. Replicates equal to the
 * estimate count half, as befits a distribution with steps. `null` where all lie on one side.
 */
export function biasCorrection(sorted: Float64Array, value: number): number | null {
  const slack = 1e-12 * Math.max(1, Math.abs(value));
  let below = 0;
  for (const replicate of sorted) {
    if (replicate < value - slack) below += 1;
    else if (replicate <= value + slack) below += 0.5;
  }
  const share = below / sorted.length;
  return share > 0 && share < 1 ? normalQuantile(share) : null;
}

/**
 * How the standard error changes with the estimate, from estimates with one cluster left out each; one
 * list for each group that is drawn by itself. `null` where nothing changes.
 */
export function acceleration(leftOut: readonly (readonly number[])[]): number | null {
  let [cubes, squares] = [0, 0];
  for (const group of leftOut) {
    const mean = group.reduce((sum, part) => sum + part, 0) / group.length;
    for (const part of group) {
      const influence = ((group.length - 1) / group.length) * (mean - part);
      cubes += Math.pow(influence, 3);
      squares += influence * influence;
    }
  }
  const found = cubes / (6 * Math.pow(squares, 1.5));
  return Number.isFinite(found) ? found : null;
}

/**
 * Bias-corrected and accelerated limits; `null` where the correction leaves the range of the normal.
 * Source: efron1993
 */
export function acceleratedLimits(
  sorted: Float64Array,
  bias: number,
  acceleration: number,
  level: number,
): Limits | null {
  const shareAt = (outside: number) => {
    const moved = bias + normalQuantile(outside);
    const stretch = 1 - acceleration * moved;
    return stretch > 0 ? normalCdf(bias + moved / stretch) : null;
  };
  const low = shareAt((1 - level) / 2);
  const high = shareAt((1 + level) / 2);
  if (low === null || high === null) return null;
  return { lower: replicateAt(sorted, low), upper: replicateAt(sorted, high) };
}
