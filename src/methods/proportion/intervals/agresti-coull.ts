import { normalQuantile } from "../../../numeric/normal.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * "Add z²/2 successes and as many failures", then the simple formula. Never shorter than the score
 * interval. The limits may leave 0..1.
 * Source: agresti1998.
 */
export const agrestiCoull: IntervalRule = {
  lower: (count, total, outside) => limit(count, total, -normalQuantile(outside, "upper")),
  upper: (count, total, outside) => limit(count, total, normalQuantile(outside, "upper")),
};

function limit(count: number, total: number, z: number): number {
  const widened = total + z * z;
  const share = (count + (z * z) / 2) / widened;
  return share + z * Math.sqrt((share * (1 - share)) / widened);
}
