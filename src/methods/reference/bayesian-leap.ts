import { type BentNormal, bent, bentNormalThrough, bentSlope, unbent } from "../../numeric/bend.ts";
import type { Dice } from "../../numeric/dice.ts";
import { ldlFactors } from "../../numeric/ldl.ts";

/**
 * A multivariate t distribution, bent in every direction to the skewness there, laid over what a chain visited in
 * its warm-up. Proposals drawn from it do not hang on where the chain stands; its tails are heavier than the
 * posterior's.
 */
export interface Leap {
  /** Of every unknown: where bending leaves it alone, in what units, and how much it is bent. */
  readonly origin: Float64Array;
  readonly scale: Float64Array;
  readonly bend: Float64Array;
  /** Centre of the t distribution before it is bent. */
  readonly centre: Float64Array;
  /** Lower triangle L with L Lᵀ its spread, row by row. */
  readonly root: Float64Array;
}

const FREEDOM = 16;
/** The spread is widened a little, so that the tails are covered. */
const WIDENED = 1.05;

/** The distribution with the covariances and the 5 %, 50 % and 95 % points of the rows; `null` without spread. */
export function leapOver(rows: readonly Float64Array[]): Leap | null {
  const size = rows[0]?.length ?? 0;
  const shapes = Array.from({ length: size }, (_, k) => shapeOf(rows, k));
  if (shapes.some(({ scale }) => !(scale > 0))) return null;
  const straight = rows.map((row) =>
    row.map((value, k) => {
      const { origin, scale, bend } = shapes[k] as BentNormal;
      return unbent((value - origin) / scale, bend);
    }),
  );
  const { centre, spread } = momentsOf(straight, size);
  const { lower, diagonal, positive } = ldlFactors(spread, size);
  if (!positive) return null;
  return {
    origin: Float64Array.from(shapes, ({ origin }) => origin),
    scale: Float64Array.from(shapes, ({ scale }) => scale),
    bend: Float64Array.from(shapes, ({ bend }) => bend),
    centre,
    root: lower.map((part, place) => part * Math.sqrt(at(diagonal, place % size))),
  };
}

/** The bent normal variable through the 5 %, 50 % and 95 % points of one unknown. */
function shapeOf(rows: readonly Float64Array[], k: number) {
  const sorted = Float64Array.from(rows, (row) => at(row, k)).sort();
  const point = (share: number) => at(sorted, Math.round(share * (sorted.length - 1)));
  return bentNormalThrough(point(0.05), point(0.5), point(0.95));
}

function momentsOf(rows: readonly Float64Array[], size: number) {
  const centre = new Float64Array(size);
  for (const row of rows) {
    for (let k = 0; k < size; k += 1) centre[k] = at(centre, k) + at(row, k) / rows.length;
  }
  const spread = new Float64Array(size * size);
  const own = WIDENED / (rows.length - 1);
  // Few rows tell little of how unknowns hang together: their covariances are drawn towards none.
  const shared = own * (rows.length / (rows.length + size));
  for (const row of rows) {
    for (let a = 0; a < size; a += 1) {
      const first = at(row, a) - at(centre, a);
      for (let b = 0; b < a; b += 1) {
        spread[a * size + b] = at(spread, a * size + b) + shared * first * (at(row, b) - at(centre, b));
      }
      spread[a * size + a] = at(spread, a * size + a) + own * first * first;
    }
  }
  return { centre, spread };
}

/**
 * Draws a proposal that hangs on where the chain stands as one number of an autoregression hangs on the one
 * before. With the precision that belongs to where it stands drawn first, the t distribution is stationary under
 * such steps, there and back alike.
 *
 * @param from  where the chain stands, in standard units of the t distribution before bending
 * @param steps as much for the proposal, overwritten
 * @param to    the proposal, overwritten
 * @param along correlation of the two: below 0 to the other side of the centre, near 1 a small step
 * @returns the log of the distribution's density there, without the constant
 */
export function drawLeap(
  leap: Leap,
  dice: Dice,
  from: Float64Array,
  steps: Float64Array,
  to: Float64Array,
  along: number,
): number {
  const { centre, root, origin, scale, bend } = leap;
  const size = centre.length;
  let squares = 0;
  for (let k = 0; k < size; k += 1) squares += at(from, k) * at(from, k);
  const precision = (2 * dice.gamma((FREEDOM + size) / 2)) / (FREEDOM + squares);
  const stretch = Math.sqrt((1 - along * along) / precision);
  let squaresThere = 0;
  let slopes = 1;
  for (let row = 0; row < size; row += 1) {
    const step = along * at(from, row) + stretch * dice.normal();
    steps[row] = step;
    squaresThere += step * step;
    let straight = at(centre, row);
    for (let k = 0; k <= row; k += 1) straight += at(root, row * size + k) * at(steps, k);
    slopes *= bentSlope(straight, at(bend, row));
    to[row] = at(origin, row) + at(scale, row) * bent(straight, at(bend, row));
  }
  return densityOf(squaresThere, size, slopes);
}

/** The log density, without the constant, of a place, whose standard units are put into `steps`. */
export function leapDensity(leap: Leap, place: Float64Array, steps: Float64Array): number {
  const { centre, root, origin, scale, bend } = leap;
  const size = centre.length;
  let squares = 0;
  let slopes = 1;
  for (let row = 0; row < size; row += 1) {
    const straight = unbent((at(place, row) - at(origin, row)) / at(scale, row), at(bend, row));
    slopes *= bentSlope(straight, at(bend, row));
    let left = straight - at(centre, row);
    for (let k = 0; k < row; k += 1) left -= at(root, row * size + k) * at(steps, k);
    const step = left / at(root, row * size + row);
    steps[row] = step;
    squares += step * step;
  }
  return densityOf(squares, size, slopes);
}

function densityOf(squares: number, size: number, slopes: number): number {
  return -0.5 * (FREEDOM + size) * Math.log(1 + squares / FREEDOM) - Math.log(slopes);
}

function at(values: Float64Array, place: number): number {
  return values[place] as number;
}
