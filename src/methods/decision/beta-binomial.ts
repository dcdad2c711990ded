import { logBeta } from "../../numeric/gamma-function.ts";

/** A beta distribution of a proportion, by its two parameters. */
export interface BetaShape {
  readonly a: number;
  readonly b: number;
}

/** P(K = count) among `total` when the proportion itself is beta distributed; 0 outside 0..total. */
export function betaBinomialMass(count: number, total: number, { a, b }: BetaShape): number {
  if (count < 0 || count > total) return 0;
  const logWays = -Math.log(total + 1) - logBeta(count + 1, total - count + 1);
  return Math.exp(logWays + logBeta(a + count, b + total - count) - logBeta(a, b));
}

/** P(K >= count), as the exact sum of the masses on the side away from the mean: a small tail keeps its digits. */
export function betaBinomialAtLeast(count: number, total: number, shape: BetaShape): number {
  if (count <= 0) return 1;
  if (count > total) return 0;
  const { a, b } = shape;
  if (count <= (total * a) / (a + b))
    return 1 - betaBinomialAtLeast(total - count + 1, total, { a: b, b: a });
  let mass = betaBinomialMass(count, total, shape);
  let sum = mass;
  for (let at = count; at < total; at += 1) {
    mass *= ((total - at) / (at + 1)) * ((a + at) / (b + total - at - 1));
    sum += mass;
  }
  return Math.min(1, sum);
}
