import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { DrawnAgain } from "./latent-bootstrap.ts";
import type { Summit } from "./latent-climb.ts";
import type { LatentData } from "./latent-data.ts";
import type { Covariance } from "./latent-intervals.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { pairCells } from "./latent-pair.ts";

/** An estimate with its standard error. */
export interface Measured {
  readonly estimate: Estimate;
  readonly standardError: number | null;
}

/** A fitted model, and how its limits are had. */
interface Fitted {
  readonly summit: Summit;
  readonly data: LatentData;
  readonly layout: LatentLayout;
  readonly covariance: Covariance;
  readonly level: number;
  readonly again: DrawnAgain | null;
}

/**
 * The conditional covariance of a pair, with limits by the delta method on its own scale, or of the bootstrap where
 * there is one.
 */
export function pairCovariance(
  condition: number,
  pair: number,
  { summit, data, layout, covariance, level, again }: Fitted,
  path: string,
  notes: Note[],
): Measured {
  const [first, second] = data.pairs[pair] as readonly [number, number];
  const places = [
    layout.reactive(condition, first),
    layout.reactive(condition, second),
    layout.dependence(condition, pair),
  ];
  const [one, other, odds] = places.map((place) => summit.theta[place] as number) as [number, number, number];
  const { cells, slopes } = pairCells(one, other, odds);
  const [p, q] = [fromLogit(one), fromLogit(other)];
  const own = [q * p * fromLogit(-one), p * q * fromLogit(-other), 0];
  const slope = slopes.map((by, k) => (by[3] as number) - (own[k] as number));
  let variance: number | null = 0;
  for (const [a, row] of places.entries()) {
    for (const [b, column] of places.entries()) {
      const shared = covariance(row, column);
      variance =
        variance === null || shared === null
          ? null
          : variance + (slope[a] as number) * (slope[b] as number) * shared;
    }
  }
  const value = cells[3] - p * q;
  const estimate = again?.estimateOf((theta) => covarianceAt(theta, places));
  if (variance === null) {
    const limits = estimate === undefined ? ", no limits" : "";
    const message = `a share or the dependence of this pair is at its border: no standard error${limits}`;
    notes.push(note("at_border", path, message));
    return { estimate: estimate ?? { value, lower: null, upper: null }, standardError: null };
  }
  const standardError = Math.sqrt(Math.max(0, variance));
  if (estimate !== undefined) return { estimate, standardError };
  const reach = normalQuantile((1 + level) / 2) * standardError;
  return { estimate: { value, lower: value - reach, upper: value + reach }, standardError };
}

function covarianceAt(theta: Float64Array, places: readonly number[]): number {
  const [one, other, odds] = places.map((place) => theta[place] as number) as [number, number, number];
  return pairCells(one, other, odds).cells[3] - fromLogit(one) * fromLogit(other);
}
