import { InputError } from "../core/input-error.ts";
import { bivariateNormalCdf, requireCorrelation } from "./bivariate-normal.ts";
import { leastPivot, PIVOT_ROUNDING } from "./correlation-matrix.ts";
import { normalCdf } from "./normal.ts";
import { requireNumber } from "./require.ts";
import { ruleFor, trivariateNormalCdf } from "./trivariate-normal.ts";

type Matrix = readonly (readonly number[])[];

const MOST = 5;
const TWO_PI = 2 * Math.PI;
/** Correlations closer to 1 or -1 than this are taken for it. */
const TIED = 1e-15;

/**
 * P(every X_i <= threshold_i) for up to five standard normal variables.
 *
 * One variable at a time is tied to the rest along a straight path from independence; the slope along it is a
 * sum of such probabilities of two variables fewer. Absolute accuracy about 1e-13, about 1e-9 where the
 * correlations are nearly singular; correlations of exactly 1 and -1 are allowed.
 *
 * @param thresholds   none to five numbers, which may be infinite
 * @param correlations symmetric, 1 on the diagonal, positive (semi)definite, one row per threshold
 * @throws InputError for more than five, or correlations that can't hold together
 * Source: Plackett 1954, Biometrika 41, 351-360, recalled; held against sums over common factors and SciPy.
 */
export function normalOrthant(thresholds: readonly number[], correlations: Matrix): number {
  if (thresholds.length > MOST)
    throw new InputError(["thresholds"], `at most ${MOST} numbers`, thresholds.length);
  for (const threshold of thresholds) requireNumber("thresholds", threshold);
  for (const row of correlations) for (const entry of row) requireCorrelation("correlations", entry);
  if (leastPivot(correlations) < -PIVOT_ROUNDING) {
    throw new InputError(["correlations"], "correlations that can hold together", correlations);
  }
  return Math.min(1, Math.max(0, below(thresholds, correlations)));
}

/** The recursion, without checks. */
function below(thresholds: readonly number[], correlations: Matrix): number {
  if (thresholds.includes(Number.NEGATIVE_INFINITY)) return 0;
  const free = thresholds.indexOf(Number.POSITIVE_INFINITY);
  if (free >= 0) return below(without(thresholds, free), minor(correlations, free));
  const [x, y, z] = thresholds as [number, number, number];
  if (thresholds.length === 0) return 1;
  if (thresholds.length === 1) return normalCdf(x);
  if (thresholds.length === 2) return bivariateNormalCdf(x, y, at(correlations, 0, 1));
  const tied = tiedPair(correlations);
  if (tied !== null) return ofTied(thresholds, correlations, tied);
  if (thresholds.length === 3) {
    return trivariateNormalCdf(
      x,
      y,
      z,
      at(correlations, 0, 1),
      at(correlations, 0, 2),
      at(correlations, 1, 2),
    );
  }
  return alongPath(thresholds, correlations);
}

/** Ties the least correlated variable to the rest, little by little. */
function alongPath(thresholds: readonly number[], correlations: Matrix): number {
  const first = leastTied(correlations);
  const others = thresholds.map((_, place) => place).filter((place) => place !== first);
  const rest = minor(correlations, first);
  const start = normalCdf(thresholds[first] as number) * below(without(thresholds, first), rest);
  const ties = others.map((place) => at(correlations, first, place));
  if (ties.every((tie) => tie === 0)) return start;
  const strongest = Math.max(
    ...rest.flatMap((row, r) => row.map((entry, c) => (r === c ? 0 : Math.abs(entry)))),
  );
  const { places, weights } = ruleFor(strongest, leastPivot(correlations));
  let sum = 0;
  for (let node = 0; node < places.length; node += 1) {
    const place = places[node] as number;
    const path = ties.map((tie) => tie * place);
    let slope = 0;
    for (let other = 0; other < others.length; other += 1) {
      if (ties[other] === 0) continue;
      slope +=
        (ties[other] as number) *
        slopeAt(thresholds[first] as number, without(thresholds, first), path, rest, other);
    }
    sum += (weights[node] as number) * slope;
  }
  return start + sum / TWO_PI;
}

/**
 * 2 pi times the density of two variables at their thresholds, times the probability that the rest are below
 * theirs, given those.
 *
 * @param ties correlations of the first variable with the others, whose own are `rest`
 * @param second place among the others
 */
function slopeAt(
  first: number,
  thresholds: readonly number[],
  ties: readonly number[],
  rest: Matrix,
  second: number,
): number {
  const tie = ties[second] as number;
  const other = thresholds[second] as number;
  const left = 1 - tie * tie;
  const density =
    Math.exp((first * other * tie - (first * first + other * other) / 2) / left) / Math.sqrt(left);
  if (density === 0) return 0;
  const places = thresholds.map((_, place) => place).filter((place) => place !== second);
  const byFirst = places.map((place) => ((ties[place] as number) - tie * at(rest, second, place)) / left);
  const bySecond = places.map((place) => (at(rest, second, place) - tie * (ties[place] as number)) / left);
  const shared = places.map((row, r) =>
    places.map(
      (column) =>
        at(rest, row, column) -
        (byFirst[r] as number) * (ties[column] as number) -
        (bySecond[r] as number) * at(rest, second, column),
    ),
  );
  const deviations = places.map((_, place) =>
    Math.sqrt(Math.max(at(shared, place, place), Number.MIN_VALUE)),
  );
  const given = places.map(
    (place, index) =>
      ((thresholds[place] as number) -
        (byFirst[index] as number) * first -
        (bySecond[index] as number) * other) /
      (deviations[index] as number),
  );
  return density * below(given, standardised(shared, deviations));
}

function standardised(covariances: Matrix, deviations: readonly number[]): number[][] {
  return covariances.map((row, r) =>
    row.map((entry, c) => {
      if (r === c) return 1;
      const correlation = entry / ((deviations[r] as number) * (deviations[c] as number));
      return Math.min(1, Math.max(-1, correlation));
    }),
  );
}

function leastTied(correlations: Matrix): number {
  const strengths = correlations.map((row) => row.reduce((sum, entry) => sum + entry * entry, 0));
  return strengths.indexOf(Math.min(...strengths));
}

/** Two variables that are the same, or each other's opposite. */
function tiedPair(correlations: Matrix): readonly [number, number] | null {
  for (let row = 0; row < correlations.length; row += 1) {
    for (let column = row + 1; column < correlations.length; column += 1) {
      if (Math.abs(at(correlations, row, column)) >= 1 - TIED) return [row, column];
    }
  }
  return null;
}

/** Of two that are the same the lower threshold counts; of opposites, the stretch between their thresholds. */
function ofTied(
  thresholds: readonly number[],
  correlations: Matrix,
  tied: readonly [number, number],
): number {
  const [kept, dropped] = tied;
  const mine = thresholds[kept] as number;
  const theirs = thresholds[dropped] as number;
  const rest = minor(correlations, dropped);
  const upTo = (threshold: number) => below(without(thresholds.with(kept, threshold), dropped), rest);
  if (at(correlations, kept, dropped) > 0) return upTo(Math.min(mine, theirs));
  return mine > -theirs ? upTo(mine) - upTo(-theirs) : 0;
}

function at(matrix: Matrix, row: number, column: number): number {
  return (matrix[row] as readonly number[])[column] as number;
}

function without(list: readonly number[], place: number): number[] {
  return list.filter((_, index) => index !== place);
}

function minor(matrix: Matrix, place: number): number[][] {
  return without(
    matrix.map((_, index) => index),
    place,
  ).map((row) => without(matrix[row] as readonly number[], place));
}
