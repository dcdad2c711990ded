import { inverseLdl, ldlFactors } from "../../numeric/ldl.ts";
import { type Local, newtonMaximum, type Summit } from "../../numeric/newton-maximum.ts";
import { normalCdf, normalDensity } from "../../numeric/normal.ts";

export const LINKS = ["probit", "logit"] as const;
export type Link = (typeof LINKS)[number];

/** How many of how many at one value of x. */
export interface BinaryRow {
  readonly x: number;
  readonly count: number;
  readonly total: number;
}

/** P(counted) = link^-1(intercept + slope x), at its likeliest. */
export interface BinaryLine {
  readonly link: Link;
  readonly intercept: number;
  readonly slope: number;
  /** Of intercept, of slope, and between them, from the expected information; a slope held has none. */
  readonly interceptVariance: number;
  readonly slopeVariance: number;
  readonly covariance: number;
  /** Without binomial coefficients. */
  readonly logLikelihood: number;
  readonly converged: boolean;
}

/** P(counted) and P(not counted) at a height of the line. */
export function sharesAt(link: Link, height: number): { yes: number; no: number } {
  return link === "probit"
    ? { yes: normalCdf(height), no: normalCdf(height, "upper") }
    : { yes: 1 / (1 + Math.exp(-height)), no: 1 / (1 + Math.exp(height)) };
}

/**
 * What keeps the likeliest line from being finite, or `null` where nothing does: the counted and the others must
 * overlap in x. Source: silvapulle1981, for one x.
 */
export function whyUnbounded(
  rows: readonly BinaryRow[],
): "all_alike" | "one_value" | "separated" | "separated_downwards" | null {
  const yes = rows.filter(({ count }) => count > 0).map(({ x }) => x);
  const no = rows.filter(({ count, total }) => count < total).map(({ x }) => x);
  if (yes.length === 0 || no.length === 0) return "all_alike";
  const [lowYes, highYes] = extremes(yes);
  const [lowNo, highNo] = extremes(no);
  if (Math.min(lowYes, lowNo) === Math.max(highYes, highNo)) return "one_value";
  if (lowYes >= highNo) return "separated";
  if (highYes <= lowNo) return "separated_downwards";
  return null;
}

function extremes(values: readonly number[]): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}

/**
 * The likeliest line. Asks that `whyUnbounded` is `null`, or with a slope that is held, that some are counted and
 * some not.
 * @param held the slope, where it is not to be estimated
 */
export function binaryLine(rows: readonly BinaryRow[], link: Link, held: number | null = null): BinaryLine {
  const { middle, scale } = placeOf(rows);
  const scaled = rows.map((row) => ({ ...row, x: (row.x - middle) / scale }));
  const share = sum(rows, ({ count }) => count) / sum(rows, ({ total }) => total);
  const start = [held === null ? Math.log(share / (1 - share)) / 2 : 0, held === null ? 0 : held * scale];
  const summit = newtonMaximum((at) => locally(scaled, link, at), start, {
    held: held === null ? [] : [1],
    leastGain: 1e-15,
    mostSteps: 100,
  });
  const [height, rise] = sharpened(scaled, link, summit, held !== null);
  const covariance = covarianceOf(scaled, link, height, rise, held !== null);
  const shift = middle / scale;
  const { atMiddle, between, ofRise } = covariance;
  return {
    link,
    intercept: height - rise * shift,
    slope: rise / scale,
    interceptVariance: atMiddle - 2 * shift * between + shift * shift * ofRise,
    slopeVariance: ofRise / Math.pow(scale, 2),
    covariance: (between - shift * ofRise) / scale,
    logLikelihood: summit.local.value,
    converged: summit.converged,
  };
}

/** Two last steps of Newton: heights that rounding makes equal still have slopes that tell them apart. */
function sharpened(
  rows: readonly BinaryRow[],
  link: Link,
  { at, converged }: Summit,
  slopeHeld: boolean,
): readonly [number, number] {
  let [height, rise] = at as unknown as [number, number];
  for (let step = 0; step < 2 && converged; step += 1) {
    const { gradient, hessian } = locally(rows, link, Float64Array.of(height, rise));
    const [slope, slopeX] = gradient as unknown as readonly [number, number];
    const [bend, bendX, , bendXx] = hessian as unknown as readonly [number, number, number, number];
    if (slopeHeld) {
      height -= slope / bend;
      continue;
    }
    const determinant = bend * bendXx - bendX * bendX;
    if (!(determinant > 0)) break;
    height -= (bendXx * slope - bendX * slopeX) / determinant;
    rise -= (bend * slopeX - bendX * slope) / determinant;
  }
  return [height, rise];
}

function sum(rows: readonly BinaryRow[], of: (row: BinaryRow) => number): number {
  return rows.reduce((total, row) => total + of(row), 0);
}

/** Mean and standard deviation of x, by people. */
function placeOf(rows: readonly BinaryRow[]): { middle: number; scale: number } {
  const people = sum(rows, ({ total }) => total);
  const middle = sum(rows, ({ x, total }) => total * x) / people;
  const spread = sum(rows, ({ x, total }) => total * Math.pow(x - middle, 2)) / people;
  return { middle, scale: spread > 0 ? Math.sqrt(spread) : 1 };
}

function locally(rows: readonly BinaryRow[], link: Link, at: Float64Array): Local {
  const [height, rise] = at as unknown as readonly [number, number];
  let value = 0;
  let [slope, slopeX] = [0, 0];
  let [bend, bendX, bendXx] = [0, 0, 0];
  for (const { x, count, total } of rows) {
    const part = link === "logit" ? logitPart(height + rise * x) : probitPart(height + rise * x);
    const rest = total - count;
    if (count > 0) value += count * part.logYes;
    if (rest > 0) value += rest * part.logNo;
    const first = count * part.pull - rest * part.push;
    const second = count * part.pullBend + rest * part.pushBend;
    slope += first;
    slopeX += first * x;
    bend -= second;
    bendX -= second * x;
    bendXx -= second * x * x;
  }
  return {
    value,
    gradient: Float64Array.of(slope, slopeX),
    hessian: Float64Array.of(bend, bendX, bendX, bendXx),
  };
}

/** Logarithms of both shares at a height, their first derivatives (one with its sign turned), minus the second. */
function logitPart(height: number) {
  const { yes, no } = sharesAt("logit", height);
  const bend = yes * no;
  const soft = Math.log1p(Math.exp(-Math.abs(height)));
  return {
    logYes: Math.min(height, 0) - soft,
    logNo: Math.min(-height, 0) - soft,
    pull: no,
    push: yes,
    pullBend: bend,
    pushBend: bend,
  };
}

/** Beyond this a normal tail is no longer a number; its first term stands in. */
const FAR = 37;

function probitPart(height: number) {
  const up = tailPart(height);
  const down = tailPart(-height);
  return {
    logYes: up.log,
    logNo: down.log,
    pull: up.ratio,
    push: down.ratio,
    pullBend: up.ratio * (up.ratio + height),
    pushBend: down.ratio * (down.ratio - height),
  };
}

/** ln cdf(z), and density over cdf. */
function tailPart(z: number): { log: number; ratio: number } {
  if (z < -FAR) return { log: -(z * z) / 2 - Math.log(-z * Math.sqrt(2 * Math.PI)), ratio: -z - 1 / z };
  const share = normalCdf(z);
  return {
    log: z > 0 ? Math.log1p(-normalCdf(z, "upper")) : Math.log(share),
    ratio: normalDensity(z) / share,
  };
}

function covarianceOf(
  rows: readonly BinaryRow[],
  link: Link,
  height: number,
  rise: number,
  slopeHeld: boolean,
): { atMiddle: number; between: number; ofRise: number } {
  const information = new Float64Array(4);
  for (const { x, total } of rows) {
    const at = height + rise * x;
    const { yes, no } = sharesAt(link, at);
    const density = link === "logit" ? yes * no : normalDensity(at);
    if (!(yes > 0 && no > 0)) continue;
    const weight = (total * density * density) / (yes * no);
    information[0] = (information[0] as number) + weight;
    information[1] = (information[1] as number) + weight * x;
    information[3] = (information[3] as number) + weight * x * x;
  }
  if (slopeHeld) return { atMiddle: 1 / (information[0] as number), between: 0, ofRise: 0 };
  information[2] = information[1] as number;
  const inverse = inverseLdl(ldlFactors(information, 2));
  return {
    atMiddle: inverse[0] as number,
    between: inverse[1] as number,
    ofRise: inverse[3] as number,
  };
}
