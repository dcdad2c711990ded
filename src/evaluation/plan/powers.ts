import type { Plan, PlanCriterion } from "../../records/plan/plan.ts";
import { demandOf } from "../criteria.ts";
import type { CriterionPlan } from "./document.ts";

/** The power that one criterion is planned with. */
export interface PowerWanted {
  readonly power: number;
  readonly why: CriterionPlan["why"];
  /** Confidence level at which it is judged: Holm's procedure asks for more than the plan's. */
  readonly level: number;
}

/**
 * The power of each criterion. Where all primary criteria must pass, the plan's power is for all of them
 * together: each gets an equal share, as if they were independent, or more where it states more itself.
 * Under Holm's procedure each is planned at the level of its first and strictest step.
 */
export function powersWanted(plan: Plan): ReadonlyMap<string, PowerWanted> {
  const shared = sharedPower(plan);
  const primary = plan.criteria.filter(({ importance }) => importance === "primary");
  const { level } = plan.interval;
  return new Map(
    plan.criteria.map((criterion): readonly [string, PowerWanted] => {
      const own = criterion.power ?? plan.power;
      if (criterion.importance !== "primary") return [criterion.id, { power: own, why: "own", level }];
      if (shared !== null && shared > (criterion.power ?? 0)) {
        return [criterion.id, { power: shared, why: "shared_independent", level }];
      }
      if (plan.decision.control === "holm" && primary.length > 1 && criterion.rule !== "point") {
        const strict = 1 - (1 - level) / primary.length;
        return [criterion.id, { power: own, why: "holm", level: strict }];
      }
      return [criterion.id, { power: own, why: "own", level }];
    }),
  );
}

/** Each criterion's share of the plan's power; `null` where the criteria don't share it. */
function sharedPower(plan: Plan): number | null {
  const together = sharingCriteria(plan);
  return together.length < 2 ? null : Math.pow(plan.power, 1 / together.length);
}

/** The primary criteria that can be shown at all, where all of them must pass. */
export function sharingCriteria(plan: Plan): PlanCriterion[] {
  if (plan.decision.control !== "all_must_pass") return [];
  return plan.criteria.filter((criterion) => criterion.importance === "primary" && isBeyond(criterion));
}

/** Whether what is expected lies on the right side of what is demanded. */
export function isBeyond(criterion: PlanCriterion): boolean {
  const { threshold, direction } = demandOf(criterion);
  return direction === "at_least" ? criterion.expected > threshold : criterion.expected < threshold;
}
