import type { Estimate } from "../../core/estimate.ts";
import type { BinaryLine } from "./binary-line.ts";

/** A line, and how many of its standard errors make the limits. */
export interface Dose {
  readonly line: BinaryLine;
  readonly spread: number;
}

/**
 * Where a rising line reaches a height, with fiducial limits: all x at which the height lies within the limits of
 * the line, the roots of (intercept + slope x - height)² = spread² variance(intercept + slope x).
 *
 * @returns all `null` where the line does not rise; limits `null` where the slope's own limits reach 0, as the set is
 *   then no interval
 * Source: fieller1954; finney1971
 */
export function fiducialLimits({ line, spread }: Dose, height: number): Estimate {
  const { intercept, slope } = line;
  if (!(slope > 0)) return { value: null, lower: null, upper: null };
  const value = (height - intercept) / slope;
  const square = spread * spread;
  // The quadratic in d = x - value: (slope² - s² v_b) d² - 2 s² (v_ab + value v_b) d - s² v(value) = 0.
  const lead = slope * slope - square * line.slopeVariance;
  if (!(lead > 0)) return { value, lower: null, upper: null };
  const half = square * (line.covariance + value * line.slopeVariance);
  const variance = line.interceptVariance + 2 * value * line.covariance + value * value * line.slopeVariance;
  const root = Math.sqrt(half * half + lead * square * Math.max(0, variance));
  return { value, lower: value + (half - root) / lead, upper: value + (half + root) / lead };
}
