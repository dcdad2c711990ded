import { inverseLdl, ldlFactors } from "../../numeric/ldl.ts";
import { type Local, newtonMaximum, type Summit } from "../../numeric/newton-maximum.ts";
import { type Loadings, loadingsAt, type Shape } from "./loadings.ts";

/** A mean that is held at a value while the rest is fitted. */
export interface HeldMean {
  readonly place: number;
  readonly value: number;
}

/** Place and likelihood of a bivariate model, whatever the likelihood. */
export interface BivariateModel {
  /** Means to be estimated: levels of the first, then of the second proportion. */
  readonly means: number;
  /** Those of them that the search sees; the rest are worked out on the way. */
  readonly searched: number;
  /** Means to begin with, and loadings. */
  readonly begin: { readonly means: Float64Array; readonly loadings: Loadings };
  /** Log-likelihood with derivatives at (searched means, a, b, c). */
  locally(at: Float64Array, held: HeldMean | null): Local;
  /** Likeliest means there. */
  meansAt(at: Float64Array, held: HeldMean | null): Float64Array;
  /** Covariance of means and loadings at a maximum, in the numbers that `directions` (columns) leave free. */
  covariance(at: Float64Array, directions: Float64Array, columns: number): Float64Array | null;
  /** The two logits of every study given its counts, means and loadings held to be known. */
  logitsAt(at: Float64Array): { readonly first: readonly Logit[]; readonly second: readonly Logit[] };
}

export interface Logit {
  readonly mean: number;
  readonly deviation: number;
}

export interface Fit {
  readonly means: Float64Array;
  readonly loadings: Loadings;
  readonly logLikelihood: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly shape: Shape;
  readonly at: Float64Array;
}

export interface FitStart {
  readonly means: Float64Array;
  readonly loadings: Loadings;
}

/**
 * Fits a model whose loadings have the shape given.
 *
 * @param leastGain as of `newtonMaximum`
 */
export function fitShape(
  model: BivariateModel,
  shape: Shape,
  start: FitStart = model.begin,
  held: HeldMean | null = null,
  leastGain = 1e-12,
): Fit {
  const { searched } = model;
  const free = shape.near(start.loadings);
  const from = Float64Array.from([...start.means.slice(0, searched), ...free]);
  const heldHere = held !== null && searched > 0 ? [held.place] : [];
  if (held !== null && searched > 0) from[held.place] = held.value;
  const wholeOf = (at: Float64Array) => {
    const { a, b, c } = loadingsAt(shape, at.subarray(searched));
    return Float64Array.from([...at.subarray(0, searched), a, b, c]);
  };
  const directions = directionsOf(searched, shape);
  const summit: Summit = newtonMaximum(
    (at) => reduced(model.locally(wholeOf(at), held), directions, at.length),
    from,
    {
      held: heldHere,
      nonNegative: shape.nonNegative ? free.map((_, k) => searched + k) : [],
      leastGain,
    },
  );
  const at = wholeOf(summit.at);
  return {
    means: model.meansAt(at, held),
    loadings: loadingsAt(shape, summit.at.subarray(searched)),
    logLikelihood: summit.local.value,
    iterations: summit.iterations,
    converged: summit.converged,
    shape,
    at,
  };
}

/** Covariance matrix of (all means, a, b, c); `null` where the information is singular. */
export function covarianceOf(model: BivariateModel, { at, shape }: Fit): Float64Array | null {
  const columns = model.searched + (shape.matrix[0] as readonly number[]).length;
  return model.covariance(at, directionsOf(model.searched, shape), columns);
}

/** Matrix of (searched means, a, b, c) by free numbers, row by row. */
function directionsOf(searched: number, { matrix }: Shape): Float64Array {
  const freeLoadings = (matrix[0] as readonly number[]).length;
  const columns = searched + freeLoadings;
  const directions = new Float64Array((searched + 3) * columns);
  for (let place = 0; place < searched; place += 1) directions[place * columns + place] = 1;
  matrix.forEach((row, loading) => {
    row.forEach((share, k) => {
      directions[(searched + loading) * columns + searched + k] = share;
    });
  });
  return directions;
}

/** Derivatives in the free numbers. */
function reduced(local: Local, directions: Float64Array, columns: number): Local {
  const rows = local.gradient.length;
  const gradient = Float64Array.from({ length: columns }, (_, k) =>
    local.gradient.reduce((sum, part, row) => sum + part * (directions[row * columns + k] as number), 0),
  );
  return { value: local.value, gradient, hessian: squeezed(local.hessian, rows, directions, columns) };
}

/** Dᵀ H D. */
function squeezed(hessian: Float64Array, rows: number, directions: Float64Array, columns: number) {
  const half = new Float64Array(rows * columns);
  for (let row = 0; row < rows; row += 1)
    for (let k = 0; k < columns; k += 1) {
      let sum = 0;
      for (let other = 0; other < rows; other += 1)
        sum += (hessian[row * rows + other] as number) * (directions[other * columns + k] as number);
      half[row * columns + k] = sum;
    }
  return Float64Array.from({ length: columns * columns }, (_, cell) => {
    const [j, k] = [Math.floor(cell / columns), cell % columns];
    let sum = 0;
    for (let row = 0; row < rows; row += 1)
      sum += (directions[row * columns + j] as number) * (half[row * columns + k] as number);
    return sum;
  });
}

/** D (-DᵀHD)⁻¹ Dᵀ: the covariance that a Hessian gives along the free directions; `null` if singular. */
export function covarianceAlong(
  hessian: Float64Array,
  directions: Float64Array,
  columns: number,
): Float64Array | null {
  const rows = columns === 0 ? 3 : directions.length / columns;
  if (columns === 0) return new Float64Array(rows * rows);
  const factors = ldlFactors(
    squeezed(hessian, rows, directions, columns).map((part) => -part),
    columns,
  );
  if (!factors.positive) return null;
  const inverse = inverseLdl(factors);
  const transposed = Float64Array.from({ length: directions.length }, (_, cell) => {
    const [k, row] = [Math.floor(cell / rows), cell % rows];
    return directions[row * columns + k] as number;
  });
  return squeezed(inverse, columns, transposed, rows);
}
