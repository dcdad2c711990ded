import { type Demand, verdictOn } from "../decision/verdict-borders.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { fewestThat } from "./fewest-that.ts";

/**
 * The fewest people with whom a result without a fault meets a criterion; `null` where it takes more than
 * `most`. A flawless result of more people is never worse.
 */
export function fewestFlawless(demand: Demand, options: CriterionOptions, most: number): number | null {
  const meets = (total: number) => total > 0 && verdictOn(total, total, demand, options) === "met";
  const wanted = demand.direction === "at_least" ? demand.threshold : 1 - demand.threshold;
  return fewestThat(meets, Math.log((1 - options.level) / 2) / Math.log(wanted), most);
}
