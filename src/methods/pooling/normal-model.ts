import { hessianOfGradient } from "../../numeric/differences.ts";
import { inverseLdl, ldlFactors, solveLdl } from "../../numeric/ldl.ts";
import type { Local } from "../../numeric/newton-maximum.ts";
import { beginning } from "./bivariate-begin.ts";
import type { PooledCounts, PooledLogits } from "./bivariate-data.ts";
import { type BivariateModel, covarianceAlong, type HeldMean, type Logit } from "./bivariate-model.ts";

/** The inverse of the covariance matrix of one study's two observed logits, and that matrix's log-determinant. */
interface Weight {
  readonly w11: number;
  readonly w12: number;
  readonly w22: number;
  readonly logDeterminant: number;
}

/** Means by generalised least squares at given loadings. */
interface LeastSquares {
  readonly weights: readonly Weight[];
  readonly means: Float64Array;
  /** Inverse of the information on the means, row by row. */
  readonly inverse: Float64Array;
  readonly logDeterminant: number;
}

/**
 * The normal approximation: observed logits with known variances, the means worked out by generalised least squares.
 * A study without people of one kind gives its other logit alone.
 *
 * @param counts     the counts, only to begin from
 * @param restricted restricted likelihood, which allows for the means having been estimated
 * Sources: reitsma2005; harville1977 for the restricted likelihood
 */
export function normalModel(data: PooledLogits, counts: PooledCounts, restricted: boolean): BivariateModel {
  const means = data.first.levels + data.second.levels;
  const slopes = (at: Float64Array, held: HeldMean | null) => slopesAt(data, at, held, restricted);
  const locally = (at: Float64Array, held: HeldMean | null): Local => ({
    ...slopes(at, held),
    hessian: hessianOfGradient((there) => slopes(there, held).gradient, at),
  });
  return {
    means,
    searched: 0,
    begin: beginning(counts),
    locally,
    meansAt: (at, held) => leastSquares(data, at, held).means,
    covariance: (at, directions, columns) => {
      const loadings = covarianceAlong(locally(at, null).hessian, directions, columns);
      return loadings && together(leastSquares(data, at, null).inverse, means, loadings);
    },
    logitsAt: (at) => logitsAt(data, at),
  };
}

function weightOf({ first, second }: PooledLogits, study: number, at: Float64Array): Weight {
  const [a, b, c] = at as unknown as [number, number, number];
  const v11 = (first.variance[study] as number) + a * a;
  const v22 = (second.variance[study] as number) + b * b + c * c;
  const [seen1, seen2] = [Number.isFinite(v11), Number.isFinite(v22)];
  if (!seen1 || !seen2) {
    const [w11, w22] = [seen1 ? 1 / v11 : 0, seen2 ? 1 / v22 : 0];
    const logDeterminant = (seen1 ? Math.log(v11) : 0) + (seen2 ? Math.log(v22) : 0);
    return { w11, w12: 0, w22, logDeterminant };
  }
  const determinant = v11 * v22 - a * b * (a * b);
  return {
    w11: v22 / determinant,
    w12: (-a * b) / determinant,
    w22: v11 / determinant,
    logDeterminant: Math.log(determinant),
  };
}

function placesOf({ first, second }: PooledLogits, study: number): [number, number] {
  return [first.level[study] as number, first.levels + (second.level[study] as number)];
}

function leastSquares(data: PooledLogits, at: Float64Array, held: HeldMean | null): LeastSquares {
  const size = data.first.levels + data.second.levels;
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  const weights = Array.from({ length: data.size }, (_, study) => weightOf(data, study, at));
  weights.forEach(({ w11, w12, w22 }, study) => {
    const [one, two] = placesOf(data, study);
    const [y1, y2] = [data.first.logit[study] as number, data.second.logit[study] as number];
    addTo(matrix, one * size + one, w11);
    addTo(matrix, one * size + two, w12);
    addTo(matrix, two * size + one, w12);
    addTo(matrix, two * size + two, w22);
    addTo(right, one, w11 * y1 + w12 * y2);
    addTo(right, two, w12 * y1 + w22 * y2);
  });
  if (held !== null) pin(matrix, right, size, held);
  const factors = ldlFactors(matrix, size);
  return {
    weights,
    means: solveLdl(factors, right),
    inverse: inverseLdl(factors),
    logDeterminant: factors.diagonal.reduce((sum, pivot) => sum + Math.log(pivot), 0),
  };
}

function addTo(numbers: Float64Array, place: number, by: number): void {
  numbers[place] = (numbers[place] as number) + by;
}

/** The equation of one unknown becomes: it has its value; it leaves the others. */
function pin(matrix: Float64Array, right: Float64Array, size: number, { place, value }: HeldMean): void {
  for (let row = 0; row < size; row += 1) {
    addTo(right, row, -(matrix[row * size + place] as number) * value);
    matrix[row * size + place] = 0;
    matrix[place * size + row] = 0;
  }
  matrix[place * size + place] = 1;
  right[place] = value;
}

/** Log-likelihood and its slope in the loadings. */
function slopesAt(data: PooledLogits, at: Float64Array, held: HeldMean | null, restricted: boolean) {
  const [a, b, c] = at as unknown as [number, number, number];
  const { weights, means, inverse, logDeterminant } = leastSquares(data, at, held);
  const size = means.length;
  const gradient = new Float64Array(3);
  let value = restricted ? -logDeterminant / 2 : 0;
  weights.forEach(({ w11, w12, w22, logDeterminant: spread }, study) => {
    const [one, two] = placesOf(data, study);
    const r1 = (data.first.logit[study] as number) - (means[one] as number);
    const r2 = (data.second.logit[study] as number) - (means[two] as number);
    const u1 = w11 * r1 + w12 * r2;
    const u2 = w12 * r1 + w22 * r2;
    value -= (spread + r1 * u1 + r2 * u2) / 2;
    let [g11, g12, g22] = [u1 * u1 - w11, u1 * u2 - w12, u2 * u2 - w22];
    if (restricted) {
      const c11 = inverse[one * size + one] as number;
      const c12 = inverse[one * size + two] as number;
      const c22 = inverse[two * size + two] as number;
      g11 += w11 * w11 * c11 + 2 * w11 * w12 * c12 + w12 * w12 * c22;
      g12 += w11 * w12 * c11 + (w11 * w22 + w12 * w12) * c12 + w12 * w22 * c22;
      g22 += w12 * w12 * c11 + 2 * w12 * w22 * c12 + w22 * w22 * c22;
    }
    addTo(gradient, 0, a * g11 + b * g12);
    addTo(gradient, 1, a * g12 + b * g22);
    addTo(gradient, 2, c * g22);
  });
  return { value: value - constantOf(data, restricted ? size : 0), gradient };
}

/** ln(2 pi) / 2 for every logit observed, less those that went into the means of a restricted likelihood. */
function constantOf({ first, second }: PooledLogits, spent: number): number {
  const seen = (variance: Float64Array) => variance.filter(Number.isFinite).length;
  return ((seen(first.variance) + seen(second.variance) - spent) * Math.log(2 * Math.PI)) / 2;
}

/** Means and loadings in one matrix, uncorrelated. */
function together(means: Float64Array, size: number, loadings: Float64Array): Float64Array {
  const whole = new Float64Array(Math.pow(size + 3, 2));
  means.forEach((part, cell) => {
    whole[Math.floor(cell / size) * (size + 3) + (cell % size)] = part;
  });
  loadings.forEach((part, cell) => {
    whole[(size + Math.floor(cell / 3)) * (size + 3) + size + (cell % 3)] = part;
  });
  return whole;
}

/** Each study's logits drawn towards the means. */
function logitsAt(data: PooledLogits, at: Float64Array): { first: Logit[]; second: Logit[] } {
  const [a, b, c] = at as unknown as [number, number, number];
  const [s11, s12, s22] = [a * a, a * b, b * b + c * c];
  const { weights, means } = leastSquares(data, at, null);
  const both = weights.map(({ w11, w12, w22 }, study) => {
    const [one, two] = placesOf(data, study).map((place) => means[place] as number) as [number, number];
    const r1 = (data.first.logit[study] as number) - one;
    const r2 = (data.second.logit[study] as number) - two;
    const [u1, u2] = [w11 * r1 + w12 * r2, w12 * r1 + w22 * r2];
    const kept = (s: number, t: number) => w11 * s * s + 2 * w12 * s * t + w22 * t * t;
    return {
      first: {
        mean: one + s11 * u1 + s12 * u2,
        deviation: Math.sqrt(Math.max(0, s11 - kept(s11, s12))),
      },
      second: {
        mean: two + s12 * u1 + s22 * u2,
        deviation: Math.sqrt(Math.max(0, s22 - kept(s12, s22))),
      },
    };
  });
  return { first: both.map(({ first }) => first), second: both.map(({ second }) => second) };
}
