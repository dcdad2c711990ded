import { expect } from "vitest";

/** How far a number may be from its reference: within either bound is close enough. */
export interface Tolerance {
  /** Largest allowed |actual - expected| / |expected|. */
  readonly relative?: number;
  /** Largest allowed |actual - expected|, for numbers that are 0 or nearly so. */
  readonly absolute?: number;
}

/**
 * The relative difference of two numbers: 0 where they are the same (infinities too), infinite where one of
 * them is NaN, or infinite, or where only the expected one is 0.
 */
export function relativeError(actual: number, expected: number): number {
  if (Object.is(actual, expected) || actual === expected) return 0;
  const error = Math.abs(actual - expected) / Math.abs(expected);
  return Number.isNaN(error) ? Number.POSITIVE_INFINITY : error;
}

/** Whether a number is as close to its reference as the tolerance asks. */
export function isClose(actual: number, expected: number, tolerance: Tolerance): boolean {
  if (relativeError(actual, expected) <= (tolerance.relative ?? 0)) return true;
  return Math.abs(actual - expected) <= (tolerance.absolute ?? 0);
}

/**
 * Fails the test, naming both numbers, their distance and the place, unless they are close.
 *
 * @param what where the numbers come from: a case name, a row, a path into the values
 */
export function expectClose(
  actual: number | null | undefined,
  expected: number,
  tolerance: Tolerance,
  what = "value",
): void {
  if (typeof actual !== "number") {
    expect.fail(`${what}: expected ${expected}, received ${actual === null ? "null" : typeof actual}`);
  }
  if (isClose(actual, expected, tolerance)) return;
  const allowed = [
    ...(tolerance.relative === undefined ? [] : [`relative ${tolerance.relative}`]),
    ...(tolerance.absolute === undefined ? [] : [`absolute ${tolerance.absolute}`]),
  ].join(" or ");
  const off = `relative ${relativeError(actual, expected).toExponential(2)}, absolute ${Math.abs(actual - expected).toExponential(2)}`;
  expect.fail(
    `${what}: expected ${expected}, received ${actual}; off by ${off}; allowed ${allowed || "nothing"}`,
  );
}
