import { binomialCdf } from "../../numeric/binomial.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { type Demand, metBorderNear } from "../decision/verdict-borders.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";

/**
 * The probability that a criterion is met: that so many or more of a total are in favour.
 *
 * @param needed fewest in favour with which it is met; above the total where no result meets it
 * @param truth  the true proportion of the events that the criterion speaks of
 */
export function chanceMet(
  needed: number,
  total: number,
  truth: number,
  direction: Demand["direction"],
): number {
  if (needed > total) return 0;
  return direction === "at_least"
    ? binomialCdf(needed - 1, total, truth, "upper")
    : binomialCdf(total - needed, total, truth, "lower");
}

/** The fewest in favour with which the criterion is met, looked for from where the normal curve puts it. */
export function metBorder(total: number, demand: Demand, options: CriterionOptions): number {
  const wanted = demand.direction === "at_least" ? demand.threshold : 1 - demand.threshold;
  const errors = options.rule === "point" ? 0 : normalQuantile(errorOutside(options), "upper");
  const guess = total * wanted + errors * Math.sqrt(total * wanted * (1 - wanted));
  return metBorderNear(Math.min(total, Math.max(0, Math.ceil(guess))), total, demand, options);
}

/** The error that the level leaves beyond the limit that decides. */
export function errorOutside({ level, sides, rule }: CriterionOptions): number {
  return sides === "one" || rule === "one_sided" ? 1 - level : (1 - level) / 2;
}

/** Whether a power is reached, the last places of a sum not counting. */
export function reaches(power: number, wanted: number): boolean {
  return power >= wanted * (1 - 1e-12);
}
