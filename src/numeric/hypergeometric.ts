import { InputError } from "../core/input-error.ts";
import { deviance } from "./deviance.ts";
import { productError } from "./exact-excess.ts";
import { factorialCorrection } from "./gamma-function.ts";
import { requireCount, requireNumber, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * The logarithm of the probability of x white balls among k drawn, without replacement, from m white and
 * n black; -Infinity where x can't happen.
 *
 * The nine factorials are written as a saddle-point form: four deviances of the cells of the 2×2 table
 * from what its margins give, all with the same difference, and Stirling corrections.
 *
 * @param x a whole number
 * @param m white balls, 0 or more
 * @param n black balls, 0 or more
 * @param k balls drawn, 0 to m + n
 * @throws InputError outside the domain
 */
export function hypergeometricLogMass(x: number, m: number, n: number, k: number): number {
  requireUrn(m, n, k);
  if (!Number.isInteger(x)) throw new InputError(["x"], "a whole number", x);
  if (x < Math.max(0, k - n) || x > Math.min(k, m)) return Number.NEGATIVE_INFINITY;
  return logMass(x, m, n, k);
}

/** The probability itself. Arguments as for `hypergeometricLogMass`. */
export function hypergeometricMass(x: number, m: number, n: number, k: number): number {
  return Math.exp(hypergeometricLogMass(x, m, n, k));
}

/**
 * The hypergeometric distribution: P(X <= x) ("lower") or P(X > x) ("upper"), each with relative accuracy
 * of its own. Time grows with the standard deviation, not with the size of the urn.
 * Arguments as for `hypergeometricLogMass`; x may be any number, the part after the point is dropped.
 */
export function hypergeometricCdf(x: number, m: number, n: number, k: number, tail: Tail = "lower"): number {
  requireUrn(m, n, k);
  requireNumber("x", x);
  requireTail(tail);
  const least = Math.max(0, k - n);
  const most = Math.min(k, m);
  const white = Math.floor(x);
  if (white < least || white >= most) return white < least === (tail === "upper") ? 1 : 0;
  const mean = k * (m / (m + n));
  if (tail === "lower") return white <= mean ? sumDown(white, m, n, k) : 1 - sumUp(white + 1, m, n, k);
  return white + 1 >= mean ? sumUp(white + 1, m, n, k) : 1 - sumDown(white, m, n, k);
}

function logMass(x: number, m: number, n: number, k: number): number {
  const total = m + n;
  const cells = [x, m - x, k - x, n - k + x] as const;
  if (Math.max(0, k - n) === Math.min(k, m)) return 0;
  const rest = total - k;
  const excess = determinant(cells) / total;
  let sum = -factorialCorrection(total);
  for (const margin of [m, n, k, rest]) sum += factorialCorrection(margin);
  for (const cell of cells) sum -= factorialCorrection(cell);
  const deviances =
    deviance(cells[0], (m / total) * k, excess) +
    deviance(cells[1], (m / total) * rest, -excess) +
    deviance(cells[2], (n / total) * k, -excess) +
    deviance(cells[3], (n / total) * rest, excess);
  return sum - deviances;
}

/** The difference of the two diagonal products of a 2×2 table, with their rounding errors put back. */
function determinant([a, b, c, d]: readonly [number, number, number, number]): number {
  const main = a * d;
  const other = b * c;
  return main - other + (productError(a, d, main) - productError(b, c, other));
}

/** P(X <= x) by adding from x downwards; for x at or below the mean. */
function sumDown(x: number, m: number, n: number, k: number): number {
  let term = 1;
  let sum = 1;
  for (let at = x; at > 0 && term > sum * 1e-17; at--) {
    term *= (at / (m - at + 1)) * ((n - k + at) / (k - at + 1));
    sum += term;
  }
  return Math.exp(logMass(x, m, n, k)) * sum;
}

/** P(X >= x) by adding from x upwards; for x at or above the mean. */
function sumUp(x: number, m: number, n: number, k: number): number {
  let term = 1;
  let sum = 1;
  for (let at = x; term > sum * 1e-17; at++) {
    term *= ((m - at) / (at + 1)) * ((k - at) / (n - k + at + 1));
    sum += term;
  }
  return Math.exp(logMass(x, m, n, k)) * sum;
}

function requireUrn(m: number, n: number, k: number): void {
  requireCount("m", m);
  requireCount("n", n);
  requireCount("k", k);
  if (k > m + n) throw new InputError(["k"], `at most ${m + n} balls`, k);
}
