import { normalQuantile } from "../../../numeric/normal.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * Estimate plus or minus z standard errors. For teaching and for comparison with old papers only:
 * covers far too little near 0 and 1, has no width at 0 and 1, and may leave 0..1.
 * Source: newcombe1998, method 1.
 */
export const wald: IntervalRule = {
  lower: (count, total, outside) => limit(count, total, -normalQuantile(outside, "upper")),
  upper: (count, total, outside) => limit(count, total, normalQuantile(outside, "upper")),
};

/**
 * The same widened by half a unit on either side. Source: newcombe1998, method 2.
 */
export const waldCorrected: IntervalRule = {
  lower: (count, total, outside) => wald.lower(count, total, outside) - 0.5 / total,
  upper: (count, total, outside) => wald.upper(count, total, outside) + 0.5 / total,
};

function limit(count: number, total: number, z: number): number {
  const share = count / total;
  return share + z * Math.sqrt((share * (1 - share)) / total);
}
