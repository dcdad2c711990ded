import { simulated } from "../predictive/simulated.ts";
import type { ChanceValues, DrawnValues } from "./uncertain-values.ts";

const UNKNOWN: DrawnValues = { mean: null, median: null, lower: null, upper: null, error: null };

/**
 * Mean, median and percentile limits of draws; those that are NaN are left out.
 * @param draws not kept in order
 * @returns all null where fewer than 2 draws have a value
 */
export function drawSummary(draws: Float64Array, level: number, scale = 1): DrawnValues {
  const known = draws.filter((draw) => !Number.isNaN(draw));
  if (known.length < 2) return UNKNOWN;
  const { mean, median, lower, upper } = simulated(known, level);
  return {
    mean: mean.value * scale,
    median: median.value * scale,
    lower: lower.value * scale,
    upper: upper.value * scale,
    error: mean.error * scale,
  };
}

/** How often something was so, as a probability. */
export function chanceOf(times: number, draws: number): ChanceValues {
  const value = times / draws;
  return { value, error: Math.sqrt((value * (1 - value)) / draws) };
}
