import { type Demand, verdictOn } from "../decision/verdict-borders.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { fewestThat } from "./fewest-that.ts";

/**
 * The fewest people with whom a result without a fault meets a criterion; `null` where it takes more than
 * `most`. A flawless result of more people is never worse, but under Blaker's interval, which may lose it
 * again for a few totals: there every total is looked at, from where the exact one-sided limit meets it.
 */
export function fewestFlawless(demand: Demand, options: CriterionOptions, most: number): number | null {
  const meets = (total: number) => verdictOn(total, total, demand, options) === "met";
  if (options.method !== "blaker" || options.rule === "point") return byHalving(demand, options, most);
  const exact: CriterionOptions = { ...options, method: "clopper_pearson" };
  const last = byHalving(demand, exact, most) ?? most;
  const from = options.level > 0.5 ? (byHalving(demand, { ...exact, sides: "one" }, most) ?? most) : 1;
  for (let total = from; total <= last; total += 1) if (meets(total)) return total;
  return null;
}

function byHalving(demand: Demand, options: CriterionOptions, most: number): number | null {
  const meets = (total: number) => total > 0 && verdictOn(total, total, demand, options) === "met";
  const wanted = demand.direction === "at_least" ? demand.threshold : 1 - demand.threshold;
  return fewestThat(meets, Math.log((1 - options.level) / 2) / Math.log(wanted), most);
}
