import { gradientByDifferences, hessianOfGradient } from "../../numeric/differences.ts";
import { logGamma } from "../../numeric/gamma-function.ts";
import { gaussHermite } from "../../numeric/gauss-hermite.ts";
import type { GaussRule } from "../../numeric/gauss-legendre.ts";
import type { Local } from "../../numeric/newton-maximum.ts";

/** How many of how many, in one study. */
export interface Counted {
  readonly count: number;
  readonly total: number;
}

/** The likelihood of (mean log odds, standard deviation of the log odds between studies). */
export interface RandomIntercept {
  readonly value: (at: Float64Array) => number;
  readonly locally: (at: Float64Array) => Local;
  /** Second derivatives, row by row, of the likelihood as it is computed. */
  readonly hessianAt: (at: Float64Array) => Float64Array;
  /** The likeliest log odds of each study. */
  readonly likeliestAt: (at: Float64Array) => number[];
}

/** From so many places on, sums of derivatives are as good as the derivatives of the sum. */
const ENOUGH = 9;

/**
 * log odds of a study = mean + deviation × z, z standard normal; counts binomial given that. The normals are
 * integrated out by adaptive quadrature, places laid around the likeliest z of each study.
 *
 * @param points places per study; 1 is Laplace's approximation, a likelihood of its own
 * Sources: pinheiro1995 for the quadrature; derivatives by the identities of Fisher and of Louis (memory)
 */
export function randomIntercept(studies: readonly Counted[], points: number): RandomIntercept {
  const rule = gaussHermite(points);
  const finer = points < ENOUGH ? gaussHermite(ENOUGH) : rule;
  const constant = studies.reduce((sum, { count, total }) => sum + logChoose(total, count), 0);
  const value = (at: Float64Array) =>
    studies.reduce((sum, study) => sum + integralOf(study, at, rule).value, constant);
  const slopes = (at: Float64Array, by: GaussRule): Local => {
    const gradient = new Float64Array(2);
    const hessian = new Float64Array(4);
    let sum = constant;
    for (const study of studies) {
      const part = integralOf(study, at, by);
      sum += part.value;
      for (let k = 0; k < 2; k += 1) gradient[k] = (gradient[k] as number) + (part.gradient[k] as number);
      for (let k = 0; k < 4; k += 1) hessian[k] = (hessian[k] as number) + (part.hessian[k] as number);
    }
    return { value: sum, gradient, hessian };
  };
  const exact = finer === rule;
  return {
    value,
    locally: (at) =>
      exact
        ? slopes(at, rule)
        : { ...slopes(at, finer), value: value(at), gradient: gradientByDifferences(value, at) },
    hessianAt: (at) =>
      exact
        ? slopes(at, rule).hessian
        : hessianOfGradient((there) => gradientByDifferences(value, there), at, 3e-3),
    likeliestAt: (at) =>
      studies.map((study) => (at[0] as number) + (at[1] as number) * likeliest(study, at).z),
  };
}

function logChoose(total: number, count: number): number {
  return logGamma(total + 1) - logGamma(count + 1) - logGamma(total - count + 1);
}

/** ln(1 + exp(x)). */
function softPlus(x: number): number {
  return Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));
}

function logDensity({ count, total }: Counted, mean: number, deviation: number, z: number): number {
  const logit = mean + deviation * z;
  return count * logit - total * softPlus(logit) - (z * z) / 2;
}

const MOST_STEPS = 100;

/** The z of the highest density, which bends downwards everywhere, and how sharply it bends there. */
function likeliest(study: Counted, at: Float64Array): { z: number; bend: number } {
  const [mean, deviation] = at as unknown as readonly [number, number];
  let z = 0;
  let bend = 1;
  for (let step = 0, last = false; step < MOST_STEPS; step += 1) {
    const share = 1 / (1 + Math.exp(-(mean + deviation * z)));
    bend = 1 + deviation * deviation * study.total * share * (1 - share);
    if (last) break;
    let move = (deviation * (study.count - study.total * share) - z) / bend;
    last = Math.abs(move) < 1e-9;
    const height = logDensity(study, mean, deviation, z);
    while (Math.abs(move) > 0.1 && logDensity(study, mean, deviation, z + move) < height) move /= 2;
    z += move;
  }
  return { z, bend };
}

/** The log-probability of one study's counts, without binomial coefficient, and its derivatives. */
function integralOf(study: Counted, at: Float64Array, { nodes, weights }: GaussRule) {
  const [mean, deviation] = at as unknown as readonly [number, number];
  const mode = likeliest(study, at);
  const height = logDensity(study, mean, deviation, mode.z);
  const width = 1 / Math.sqrt(mode.bend);
  let [all, miss, missZ] = [0, 0, 0];
  let [square, squareZ, squareZz] = [0, 0, 0];
  for (let k = 0; k < nodes.length; k += 1) {
    const node = nodes[k] as number;
    const z = mode.z + width * node;
    const log = logDensity(study, mean, deviation, z) - height + (node * node) / 2;
    const weight = (weights[k] as number) * Math.exp(log);
    const share = 1 / (1 + Math.exp(-(mean + deviation * z)));
    const residual = study.count - study.total * share;
    const curve = residual * residual - study.total * share * (1 - share);
    all += weight;
    miss += weight * residual;
    missZ += weight * residual * z;
    square += weight * curve;
    squareZ += weight * curve * z;
    squareZz += weight * curve * z * z;
  }
  const [slope, slopeZ] = [miss / all, missZ / all];
  const cross = squareZ / all - slope * slopeZ;
  return {
    value: height + Math.log(width * all),
    gradient: [slope, slopeZ],
    hessian: [square / all - slope * slope, cross, cross, squareZz / all - slopeZ * slopeZ],
  };
}
