import { normalCdf, normalQuantile } from "../../numeric/normal.ts";

export type Spending = "obrien_fleming" | "pocock";

/**
 * The part of an error probability that may be spent by the time this share of all people is seen, one-sided.
 * `obrien_fleming`: 2 - 2 P(Z <= z / sqrt(share)), z leaving half the error above. `pocock`: the error times
 * log(1 + (e - 1) share). Both are 0 before the first person and the whole error at the end.
 *
 * @param share above 0, up to 1
 * @param error the whole of it, strictly between 0 and 1
 * Source: lan1983, for boundaries like those of obrien1979 and pocock1977
 */
export function spentBy(share: number, error: number, spending: Spending): number {
  if (share >= 1) return error;
  if (spending === "pocock") return error * Math.log1p((Math.E - 1) * share);
  return 2 * normalCdf(normalQuantile(error / 2, "upper") / Math.sqrt(share), "upper");
}
