import { normalQuantile } from "../../../numeric/normal.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * The score interval: the proportions that a normal test with its own null variance would not
 * reject. Good on average; covers too little for proportions very close to 0 or 1.
 * Source: wilson1927.
 */
export const wilson: IntervalRule = {
  lower(count, total, outside) {
    if (count === 0) return 0;
    const z = normalQuantile(outside, "upper");
    // The two solutions multiply to count² / total / (total + z²): no digits are lost near 0.
    return (count * (count / total)) / (total + z * z) / largerSolution(count, total, z);
  },
  upper(count, total, outside) {
    if (count === total) return 1;
    return largerSolution(count, total, normalQuantile(outside, "upper"));
  },
};

function largerSolution(count: number, total: number, z: number): number {
  const square = z * z;
  const spread = z * Math.sqrt(square + 4 * count * ((total - count) / total));
  return (2 * count + square + spread) / (2 * (total + square));
}
