import { planningEffort } from "../../../methods/planning/effort.ts";
import type { EffortPlan } from "../document.ts";
import type { PlanWorktop } from "../worktop.ts";

/** More people than this come to no study; the method looks no farther. */
export const MOST_ENROLLED = 10_000_000;

/** How long it takes, what it costs and how many kits it uses; `null` without sites or without a total. Sites go by their ids. */
export function effortSection({ plan, ask }: PlanWorktop, enrol: number | null): EffortPlan | null {
  const { sites, assurance } = plan.recruitment;
  if (enrol === null || enrol < 1 || enrol > MOST_ENROLLED || sites.length === 0) return null;
  const input = {
    total: enrol,
    sites: sites.map(({ id, per_day, opens_after }) => ({
      label: id,
      perDay: per_day,
      opensAfterDays: opens_after,
    })),
    ...costsOf(plan.costs),
  };
  const assurances = [...new Set([0.5, assurance])].sort((one, other) => one - other);
  return ask(planningEffort, input, { assurances });
}

function costsOf(costs: PlanWorktop["plan"]["costs"]) {
  if (costs === undefined) return {};
  return {
    costs: {
      fixed: costs.fixed,
      perSite: costs.per_site,
      perDay: costs.per_day,
      perPerson: costs.per_person,
      perKit: costs.per_kit,
      perReference: costs.per_reference,
    },
    kitsPerPerson: costs.kits_per_person,
    spareKits: costs.spare_kits,
  };
}
