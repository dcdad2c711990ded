import { logGapOf } from "./deviance.ts";
import { logBetaScale } from "./gamma-function.ts";

/** The two parameters of a beta distribution with what depends on nothing else. */
export interface BetaShape {
  readonly a: number;
  readonly b: number;
  readonly total: number;
  readonly logScale: number;
}

export function betaShape(a: number, b: number): BetaShape {
  return { a, b, total: a + b, logScale: logBetaScale(a, b) };
}

/** total x - a, the distance from the mean in units of the total, from the smaller of x and y = 1 - x. */
export function betaExcess(shape: BetaShape, x: number, y: number): number {
  return x <= y ? shape.total * x - shape.a : shape.b - shape.total * y;
}

/**
 * log of x^a y^b / B(a, b), y = 1 - x, in saddle-point form, so that large parameters lose nothing.
 * This is the density of the log odds log(x / y). Source: Loader 2000.
 */
export function logBetaKernel(shape: BetaShape, x: number, y: number, excess: number): number {
  const { a, b, total, logScale } = shape;
  return logScale - a * logGapOf(excess / a, (total * x) / a) - b * logGapOf(-excess / b, (total * y) / b);
}
