import type { GaussRule } from "../../numeric/gauss-legendre.ts";

/** Where the integral of one study is taken: means of the two logits, and the loadings of two standard normals. */
export interface Place {
  readonly first: number;
  readonly second: number;
  /** First logit = first + a z1; second logit = second + b z1 + c z2. */
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** Right results of totals in one study. */
export interface StudyCounts {
  readonly firstRight: number;
  readonly firstTotal: number;
  readonly secondRight: number;
  readonly secondTotal: number;
}

/**
 * Means over the two standard normals given the counts of the study. `slope` is the mean of the derivatives of the
 * log-probability in (first, second, a, b, c): the derivatives of the log-integral (Fisher's identity). `square` is
 * the mean of second derivatives plus products of first derivatives, row by row (Louis's identity). `logits` holds
 * means and mean squares of the two logits: first, second, first squared, second squared.
 */
export interface Moments {
  readonly slope: Float64Array;
  readonly square: Float64Array;
  readonly logits: Float64Array;
}

export const newMoments = (): Moments => ({
  slope: new Float64Array(5),
  square: new Float64Array(25),
  logits: new Float64Array(4),
});

/**
 * The logarithm of the probability of a study's counts, the two normals integrated out, without the binomial
 * coefficients: Gauss-Hermite places laid around the likeliest normals by their curvature.
 *
 * @param mode likeliest pair of normals: read as the place to begin, and written
 * @param into where the moments are written; `null` to leave them out
 * Sources: liu1994 for the places, louis1982 for the moments
 */
export function studyIntegral(
  counts: StudyCounts,
  place: Place,
  rule: GaussRule,
  mode: Float64Array,
  into: Moments | null,
): number {
  const { h11, h12, h22 } = climbToMode(counts, place, mode);
  const height = logDensity(counts, place, mode[0] as number, mode[1] as number);
  const inner = 1 / Math.sqrt(h22);
  const outer = 1 / Math.sqrt(h11 - (h12 * h12) / h22);
  const frame = { mode, inner, outer, lean: (-h12 / h22) * outer, height };
  const alone = into === null && rule.nodes.length === 1;
  const total = alone ? 1 : sumPlaces(counts, place, rule, frame, into);
  return height + Math.log(outer * inner * total);
}

/** Places are mode + (outer x1, lean x1 + inner x2); `height` is the log-density at the mode. */
interface Frame {
  readonly mode: Float64Array;
  readonly inner: number;
  readonly outer: number;
  readonly lean: number;
  readonly height: number;
}

/** ln(1 + exp(x)). */
function softPlus(x: number): number {
  return Math.max(x, 0) + Math.log(1 + Math.exp(-Math.abs(x)));
}

function logDensity(counts: StudyCounts, place: Place, z1: number, z2: number): number {
  const first = place.first + place.a * z1;
  const second = place.second + place.b * z1 + place.c * z2;
  return (
    counts.firstRight * first -
    counts.firstTotal * softPlus(first) +
    counts.secondRight * second -
    counts.secondTotal * softPlus(second) -
    (z1 * z1 + z2 * z2) / 2
  );
}

/** Slope of the log-density in the two normals, and minus its second derivatives. */
function bendAt(counts: StudyCounts, { first, second, a, b, c }: Place, z1: number, z2: number) {
  const p = 1 / (1 + Math.exp(-first - a * z1));
  const q = 1 / (1 + Math.exp(-second - b * z1 - c * z2));
  const firstMiss = counts.firstRight - counts.firstTotal * p;
  const secondMiss = counts.secondRight - counts.secondTotal * q;
  const firstWeight = counts.firstTotal * p * (1 - p);
  const secondWeight = counts.secondTotal * q * (1 - q);
  return {
    g1: a * firstMiss + b * secondMiss - z1,
    g2: c * secondMiss - z2,
    h11: 1 + a * a * firstWeight + b * b * secondWeight,
    h12: b * c * secondWeight,
    h22: 1 + c * c * secondWeight,
  };
}

const MOST_STEPS = 60;
/** A step as short as this leaves an error of about its square. */
const NEAR = 1e-7;

/** Newton's steps to the likeliest normals (the log-density bends downwards everywhere); the bend there. */
function climbToMode(counts: StudyCounts, place: Place, mode: Float64Array) {
  let z1 = mode[0] as number;
  let z2 = mode[1] as number;
  let bend = bendAt(counts, place, z1, z2);
  let last = false;
  for (let step = 0; step < MOST_STEPS && !last; step += 1) {
    const { g1, g2, h11, h12, h22 } = bend;
    const determinant = h11 * h22 - h12 * h12;
    const d1 = (h22 * g1 - h12 * g2) / determinant;
    const d2 = (h11 * g2 - h12 * g1) / determinant;
    const length = Math.abs(d1) + Math.abs(d2);
    last = !(length > NEAR);
    // A short step never overshoots, and by rounding it may seem to.
    let share = 1;
    if (length > 0.1) {
      const height = logDensity(counts, place, z1, z2);
      while (share > 1e-6 && !(logDensity(counts, place, z1 + share * d1, z2 + share * d2) >= height))
        share /= 2;
    }
    z1 += share * d1;
    z2 += share * d2;
    bend = bendAt(counts, place, z1, z2);
  }
  mode[0] = z1;
  mode[1] = z2;
  return bend;
}

/** The sum over all places, as a share of what the mode alone would give; moments are written. */
function sumPlaces(
  counts: StudyCounts,
  place: Place,
  rule: GaussRule,
  frame: Frame,
  into: Moments | null,
): number {
  const { firstRight, firstTotal } = counts;
  const { nodes, weights } = rule;
  const sums = new Float64Array(24);
  const inside = new Float64Array(8);
  let total = 0;
  for (let j = 0; j < nodes.length; j += 1) {
    const x1 = nodes[j] as number;
    const z1 = (frame.mode[0] as number) + frame.outer * x1;
    const first = place.first + place.a * z1;
    const soft = softPlus(first);
    const base = firstRight * first - firstTotal * soft - (z1 * z1 - x1 * x1) / 2 - frame.height;
    const middle = (frame.mode[1] as number) + frame.lean * x1;
    sumInside(counts, place.second + place.b * z1, place.c, base, middle, frame.inner, rule, inside);
    const weight = weights[j] as number;
    total += weight * (inside[0] as number);
    if (into === null) continue;
    const p = Math.exp(first - soft);
    addMoments(sums, inside, weight, z1, first, firstRight - firstTotal * p, firstTotal * p * (1 - p));
  }
  if (into !== null) write(sums, total, into);
  return total;
}

/** Sums over the second normal, the first being where it is: weights, misses, bends and logits. */
function sumInside(
  { secondRight, secondTotal }: StudyCounts,
  shift: number,
  c: number,
  base: number,
  middle: number,
  inner: number,
  { nodes, weights }: GaussRule,
  into: Float64Array,
): void {
  let [w0, wr, wrz, wd] = [0, 0, 0, 0];
  let [wdz, wdzz, we, wee] = [0, 0, 0, 0];
  for (let k = 0; k < nodes.length; k += 1) {
    const x = nodes[k] as number;
    const z = middle + inner * x;
    const logit = shift + c * z;
    const tail = Math.exp(-Math.abs(logit));
    const soft = Math.max(logit, 0) + Math.log(1 + tail);
    const q = (logit > 0 ? 1 : tail) / (1 + tail);
    const height = base + secondRight * logit - secondTotal * soft - (z * z - x * x) / 2;
    const w = (weights[k] as number) * Math.exp(height);
    const miss = secondRight - secondTotal * q;
    const bend = w * (miss * miss - secondTotal * q * (1 - q));
    w0 += w;
    wr += w * miss;
    wrz += w * miss * z;
    wd += bend;
    wdz += bend * z;
    wdzz += bend * z * z;
    we += w * logit;
    wee += w * logit * logit;
  }
  into[0] = w0;
  into[1] = wr;
  into[2] = wrz;
  into[3] = wd;
  into[4] = wdz;
  into[5] = wdzz;
  into[6] = we;
  into[7] = wee;
}

/**
 * Adds what one place of the first normal gives: five slopes, four sums of logits, then the upper triangle of
 * `square`.
 */
function addMoments(
  sums: Float64Array,
  inside: Float64Array,
  weight: number,
  z: number,
  first: number,
  miss: number,
  variance: number,
): void {
  const [w0, wr, wrz, wd, wdz, wdzz, we, wee] = inside as unknown as Eight;
  const w = weight * w0;
  const bend = w * (miss * miss - variance);
  const both = weight * miss * wr;
  const bothZ = weight * miss * wrz;
  const parts: Sums = [
    ...[w * miss, weight * wr, w * miss * z, weight * wr * z, weight * wrz],
    ...[w * first, weight * we, w * first * first, weight * wee],
    ...[bend, both, bend * z, both * z, bothZ],
    ...[weight * wd, both * z, weight * wd * z, weight * wdz],
    ...[bend * z * z, both * z * z, bothZ * z],
    ...[weight * wd * z * z, weight * wdz * z, weight * wdzz],
  ];
  for (let k = 0; k < parts.length; k += 1) sums[k] = (sums[k] as number) + (parts[k] as number);
}
type Eight = readonly [number, number, number, number, number, number, number, number];
type Sums = readonly number[];

function write(sums: Float64Array, total: number, { slope, square, logits }: Moments): void {
  for (let k = 0; k < 5; k += 1) slope[k] = (sums[k] as number) / total;
  for (let k = 0; k < 4; k += 1) logits[k] = (sums[5 + k] as number) / total;
  let from = 9;
  for (let row = 0; row < 5; row += 1) {
    for (let column = row; column < 5; column += 1, from += 1) {
      const mean = (sums[from] as number) / total;
      square[row * 5 + column] = mean;
      square[column * 5 + row] = mean;
    }
  }
}
