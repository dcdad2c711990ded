import { InputError } from "../../core/input-error.ts";
import { binomialCdf } from "../../numeric/binomial.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { fewestThat } from "./fewest-that.ts";

/** A probability this close below the one wanted, relatively, is the one wanted: it was rounded. */
const ROUNDED = 1e-13;

/**
 * The fewest people to enrol so that at least `needed` of them count with the probability wanted.
 *
 * How many are enrolled until the last one needed comes is a negative binomial waiting time; this is its
 * quantile. Exact for any size: found by halving from a normal guess, each step one binomial tail.
 *
 * @param needed    people needed, whole, 0 or more
 * @param share     probability that one enrolled counts, above 0, at most 1
 * @param assurance probability wanted, above 0, below 1
 * @throws InputError outside these, and where the answer is no whole number a computer counts exactly
 */
export function enrolledFor(needed: number, share: number, assurance: number): number {
  if (!(Number.isSafeInteger(needed) && needed >= 0)) {
    throw new InputError(["needed"], "a whole number, 0 or more", needed);
  }
  if (!(share > 0 && share <= 1)) throw new InputError(["share"], "a proportion above 0, at most 1", share);
  if (!(assurance > 0 && assurance < 1)) {
    throw new InputError(["assurance"], "a proportion above 0 and below 1", assurance);
  }
  if (needed === 0 || share === 1) return needed;
  const enough = (total: number) =>
    total >= needed && binomialCdf(needed - 1, total, share, "upper") >= assurance * (1 - ROUNDED);
  const spread = normalQuantile(assurance) * Math.sqrt(needed * (1 - share));
  const found = fewestThat(enough, (needed + spread) / share, Number.MAX_SAFE_INTEGER);
  if (found === null) throw new InputError(["share"], "a share that people can be counted for", share);
  return found;
}
