import { gradientByDifferences, hessianOfGradient } from "../../numeric/differences.ts";
import { gaussHermite } from "../../numeric/gauss-hermite.ts";
import type { GaussRule } from "../../numeric/gauss-legendre.ts";
import type { Local } from "../../numeric/newton-maximum.ts";
import { beginning } from "./bivariate-begin.ts";
import { logCoefficients, type PooledCounts } from "./bivariate-data.ts";
import { type BivariateModel, covarianceAlong, type Logit } from "./bivariate-model.ts";
import { type Moments, newMoments, type Place, type StudyCounts, studyIntegral } from "./study-integral.ts";

/** From so many places on, sums of derivatives are as good as the derivatives of the sum. */
const ENOUGH = 9;

/**
 * The exact likelihood of the bivariate model. With few places the quadrature is a likelihood of its own (Laplace's
 * with one), whose maximum is sought by differences of its values.
 *
 * @param points places per dimension
 */
export function binomialModel(data: PooledCounts, points: number): BivariateModel {
  const rule = gaussHermite(points);
  const finer = points < ENOUGH ? gaussHermite(ENOUGH) : rule;
  const constant = logCoefficients(data.first) + logCoefficients(data.second);
  const modes = Array.from({ length: data.size }, () => new Float64Array(2));
  const means = data.first.levels + data.second.levels;
  const studies = Array.from({ length: data.size }, (_, study) => countsOf(data, study));
  const scratch = newMoments();
  const value = (at: Float64Array): number =>
    studies.reduce(
      (sum, counts, study) =>
        sum + studyIntegral(counts, placeOf(data, study, at), rule, modes[study] as Float64Array, null),
      constant,
    );
  const slopes = (at: Float64Array, by: GaussRule): Local => {
    const local = {
      gradient: new Float64Array(means + 3),
      hessian: new Float64Array(Math.pow(means + 3, 2)),
    };
    let sum = constant;
    studies.forEach((counts, study) => {
      const place = placeOf(data, study, at);
      sum += studyIntegral(counts, place, by, modes[study] as Float64Array, scratch);
      gather(local, scratch, data, study, means);
    });
    return { value: sum, ...local };
  };
  const locally = (at: Float64Array): Local => {
    const local = slopes(at, finer);
    if (finer === rule) return local;
    return { ...local, value: value(at), gradient: gradientByDifferences(value, at) };
  };
  const hessianAt = (at: Float64Array) =>
    finer === rule
      ? slopes(at, rule).hessian
      : hessianOfGradient((there) => gradientByDifferences(value, there), at, 3e-3);
  return {
    means,
    searched: means,
    begin: beginning(data),
    locally,
    meansAt: (at) => at.slice(0, means),
    covariance: (at, directions, columns) => covarianceAlong(hessianAt(at), directions, columns),
    logitsAt: (at) => logitsAt(studies, data, at, rule, modes),
  };
}

function logitsAt(
  studies: readonly StudyCounts[],
  data: PooledCounts,
  at: Float64Array,
  rule: GaussRule,
  modes: readonly Float64Array[],
): { first: Logit[]; second: Logit[] } {
  const moments = newMoments();
  const first: Logit[] = [];
  const second: Logit[] = [];
  studies.forEach((counts, study) => {
    studyIntegral(counts, placeOf(data, study, at), rule, modes[study] as Float64Array, moments);
    const [one, two, oneSquare, twoSquare] = moments.logits as unknown as [number, number, number, number];
    first.push({ mean: one, deviation: Math.sqrt(Math.max(0, oneSquare - one * one)) });
    second.push({ mean: two, deviation: Math.sqrt(Math.max(0, twoSquare - two * two)) });
  });
  return { first, second };
}

function countsOf({ first, second }: PooledCounts, study: number): StudyCounts {
  return {
    firstRight: first.right[study] as number,
    firstTotal: first.total[study] as number,
    secondRight: second.right[study] as number,
    secondTotal: second.total[study] as number,
  };
}

function placeOf({ first, second }: PooledCounts, study: number, at: Float64Array): Place {
  const means = first.levels + second.levels;
  return {
    first: at[first.level[study] as number] as number,
    second: at[first.levels + (second.level[study] as number)] as number,
    a: at[means] as number,
    b: at[means + 1] as number,
    c: at[means + 2] as number,
  };
}

/** Adds a study's part: its slope, and its second derivatives by Louis's identity. */
function gather(
  local: { gradient: Float64Array; hessian: Float64Array },
  { slope, square }: Moments,
  { first, second }: PooledCounts,
  study: number,
  means: number,
): void {
  const size = means + 3;
  const places = [
    first.level[study] as number,
    first.levels + (second.level[study] as number),
    means,
    means + 1,
    means + 2,
  ];
  for (let row = 0; row < 5; row += 1) {
    const to = places[row] as number;
    const mine = slope[row] as number;
    local.gradient[to] = (local.gradient[to] as number) + mine;
    for (let column = 0; column < 5; column += 1) {
      const cell = to * size + (places[column] as number);
      const bend = (square[row * 5 + column] as number) - mine * (slope[column] as number);
      local.hessian[cell] = (local.hessian[cell] as number) + bend;
    }
  }
}
