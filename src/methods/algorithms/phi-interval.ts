import { randomGamma } from "d3-random";
import type { Estimate } from "../../core/estimate.ts";
import type { RandomSource } from "../../core/random.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { drawAgain } from "../agreement/multinomial.ts";

/** Both reactive, the first only, the second only, neither: people, or their shares. */
export type FourCells = readonly [number, number, number, number];

/** Covariance and correlation of two yes-or-no results. */
export interface Association {
  readonly covariance: number;
  /** `null` where one of the results never varies. */
  readonly phi: number | null;
}

/** @param cells counts or shares, their sum above 0 */
export function associationOf([both, first, second, neither]: FourCells): Association {
  const total = both + first + second + neither;
  const cross = both * neither - first * second;
  const spread = (both + first) * (second + neither) * (both + second) * (first + neither);
  return { covariance: cross / (total * total), phi: spread > 0 ? cross / Math.sqrt(spread) : null };
}

export interface AssociationInterval {
  readonly covariance: Estimate;
  readonly phi: Estimate;
  /** Share of draws without a phi, as one result never varied; 0 where nothing is drawn. */
  readonly without: number;
}

export interface DrawnInterval {
  readonly level: number;
  readonly draws: number;
  readonly random: RandomSource;
}

/**
 * Limits by the delta method; those of phi on Fisher's z scale, so that they stay within -1 to 1.
 * Behaves badly with few people in a cell. `null` where one result never varies, or phi is 1 or -1.
 */
export function deltaInterval(cells: FourCells, level: number): AssociationInterval {
  const { covariance, phi } = associationOf(cells);
  const z = normalQuantile((1 - level) / 2, "upper");
  const total = cells.reduce((sum, cell) => sum + cell, 0);
  const shares = cells.map((cell) => cell / total);
  const [both, first, second, neither] = shares as unknown as FourCells;
  const slopes = [neither, -second, -first, both];
  const half = z * deltaError(shares, slopes, total);
  const around = { value: covariance, lower: covariance - half, upper: covariance + half };
  if (phi === null || phi * phi >= 1)
    return { covariance: around, phi: { value: phi, lower: null, upper: null }, without: 0 };
  const margins = [both + first, second + neither, both + second, first + neither] as const;
  const root = Math.sqrt(margins[0] * margins[1] * margins[2] * margins[3]);
  const pull = [
    1 / margins[0] + 1 / margins[2],
    1 / margins[0] + 1 / margins[3],
    1 / margins[1] + 1 / margins[2],
    1 / margins[1] + 1 / margins[3],
  ];
  const phiSlopes = slopes.map((slope, cell) => slope / root - (phi / 2) * (pull[cell] as number));
  const reach = (z * deltaError(shares, phiSlopes, total)) / (1 - phi * phi);
  const centre = Math.atanh(phi);
  const limits = { lower: Math.tanh(centre - reach), upper: Math.tanh(centre + reach) };
  return { covariance: around, phi: { value: phi, ...limits }, without: 0 };
}

/** Standard error of a function of multinomial shares, from its slope in each share. */
function deltaError(shares: readonly number[], slopes: readonly number[], total: number): number {
  const mean = shares.reduce((sum, share, cell) => sum + share * (slopes[cell] as number), 0);
  const squares = shares.reduce(
    (sum, share, cell) => sum + share * Math.pow((slopes[cell] as number) - mean, 2),
    0,
  );
  return Math.sqrt(squares / total);
}

/**
 * Central limits of what the counts leave possible, when every cell has half a person added (Jeffreys prior),
 * widened to hold the value itself: two kits that never differ may have a phi of 1.
 */
export function jeffreysInterval(cells: FourCells, how: DrawnInterval): AssociationInterval {
  const gamma = randomGamma.source(how.random);
  const of = cells.map((cell) => gamma(cell + 0.5)) as [
    () => number,
    () => number,
    () => number,
    () => number,
  ];
  const { covariance, phi, without } = drawnInterval(cells, how, () => [of[0](), of[1](), of[2](), of[3]()]);
  return { covariance: holding(covariance), phi: holding(phi), without };
}

function holding({ value, lower, upper }: Estimate): Estimate {
  if (value === null || lower === null || upper === null) return { value, lower, upper };
  return { value, lower: Math.min(lower, value), upper: Math.max(upper, value) };
}

/** Percentile limits when as many people are drawn again with replacement. */
export function bootstrapInterval(cells: FourCells, how: DrawnInterval): AssociationInterval {
  const order = [0, 1, 2, 3].sort((one, other) => (cells[other] ?? 0) - (cells[one] ?? 0));
  const drawn = new Uint32Array(4);
  return drawnInterval(cells, how, () => {
    drawAgain(cells, order, how.random, drawn);
    return [...drawn] as unknown as FourCells;
  });
}

function drawnInterval(cells: FourCells, how: DrawnInterval, draw: () => FourCells): AssociationInterval {
  const covariances = new Float64Array(how.draws);
  const phis = new Float64Array(how.draws);
  let found = 0;
  for (let index = 0; index < how.draws; index += 1) {
    const { covariance, phi } = associationOf(draw());
    covariances[index] = covariance;
    if (phi !== null) {
      phis[found] = phi;
      found += 1;
    }
  }
  const value = associationOf(cells);
  return {
    covariance: { value: value.covariance, ...central(covariances, how.level) },
    phi: { value: value.phi, ...central(phis.subarray(0, found), how.level) },
    without: 1 - found / how.draws,
  };
}

function central(draws: Float64Array, level: number): { lower: number | null; upper: number | null } {
  if (draws.length < 2) return { lower: null, upper: null };
  draws.sort();
  const at = (share: number) => {
    const place = share * (draws.length - 1);
    const low = draws[Math.floor(place)] as number;
    return low + (place - Math.floor(place)) * ((draws[Math.ceil(place)] as number) - low);
  };
  return { lower: at((1 - level) / 2), upper: at((1 + level) / 2) };
}
