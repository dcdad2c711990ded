import * as v from "valibot";
import { estimate, quantity } from "../../core/fields.ts";
import { tCdf, tQuantile } from "../../numeric/student-t.ts";
import type { WeightedLine } from "./weighted-line.ts";

/** A fitted straight line as it is told, with limits from the t distribution. */
export function LineValues(x: string, y: string) {
  return v.pipe(
    v.strictObject({
      intercept: estimate("statistic", `${y} where ${x} is 0`),
      interceptError: quantity("statistic", "its standard error"),
      slope: estimate("statistic", `change of ${y} per unit of ${x}`),
      slopeError: quantity("statistic", "its standard error"),
      slopeP: quantity("probability", "two-sided p-value of a slope of 0, t distribution"),
      residualSd: quantity("statistic", "standard deviation around the line, for a weight of 1"),
      degreesOfFreedom: quantity("degrees of freedom", "studies - 2"),
      explained: quantity("proportion", "share of the weighted sum of squares that the line accounts for"),
    }),
    v.description(`weighted least squares line of ${y} against ${x}`),
  );
}
export type LineValues = v.InferOutput<ReturnType<typeof LineValues>>;

const ABSENT = { value: null, lower: null, upper: null };

export const NO_LINE: LineValues = {
  intercept: ABSENT,
  interceptError: null,
  slope: ABSENT,
  slopeError: null,
  slopeP: null,
  residualSd: null,
  degreesOfFreedom: null,
  explained: null,
};

export function lineValues(line: WeightedLine, level: number): LineValues {
  const { intercept, slope, interceptError, slopeError, degreesOfFreedom } = line;
  const reach = tQuantile((1 + level) / 2, degreesOfFreedom);
  const around = (value: number, error: number) => ({
    value,
    lower: value - reach * error,
    upper: value + reach * error,
  });
  return {
    intercept: around(intercept, interceptError),
    interceptError,
    slope: around(slope, slopeError),
    slopeError,
    slopeP: slopeP(line),
    residualSd: Math.sqrt(line.residualVariance),
    degreesOfFreedom,
    explained: line.explained,
  };
}

function slopeP({ slope, slopeError, degreesOfFreedom }: WeightedLine): number {
  if (slope === 0) return 1;
  if (slopeError === 0) return 0;
  return Math.min(1, 2 * tCdf(Math.abs(slope) / slopeError, degreesOfFreedom, "upper"));
}

/** The line and the standard error of its height, at a place. */
export function heightAt(line: WeightedLine, x: number): { value: number; error: number } {
  const variance =
    Math.pow(line.interceptError, 2) + 2 * x * line.covariance + Math.pow(x * line.slopeError, 2);
  return { value: line.intercept + line.slope * x, error: Math.sqrt(Math.max(0, variance)) };
}
