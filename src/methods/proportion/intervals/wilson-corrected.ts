import { normalQuantile } from "../../../numeric/normal.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * The score interval with continuity correction: close to the exact interval, seldom below the
 * stated level.
 * Source: newcombe1998, method 4.
 */
export const wilsonCorrected: IntervalRule = {
  lower(count, total, outside) {
    if (count === 0) return 0;
    return Math.max(0, correctedLower(count, total, normalQuantile(outside, "upper")));
  },
  upper(count, total, outside) {
    if (count === total) return 1;
    const z = normalQuantile(outside, "upper");
    const square = z * z;
    const share = count / total;
    const inside = square + 2 - 1 / total + 4 * share * (total - count - 1);
    const spread = z * Math.sqrt(Math.max(0, inside));
    return Math.min(1, (2 * count + square + 1 + spread) / (2 * (total + square)));
  },
};

function correctedLower(count: number, total: number, z: number): number {
  const square = z * z;
  const share = count / total;
  const inside = square - 2 - 1 / total + 4 * share * (total - count + 1);
  const spread = z * Math.sqrt(Math.max(0, inside));
  return (2 * count + square - 1 - spread) / (2 * (total + square));
}
