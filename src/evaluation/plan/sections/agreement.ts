import { planningKappa } from "../../../methods/planning/kappa.ts";
import type { AgreementPlan } from "../document.ts";
import type { PlanWorktop } from "../worktop.ts";

/** How many items two readers must read for kappa to be known as closely as asked for. */
export function agreementSection({ plan, ask, seedOf }: PlanWorktop): AgreementPlan[] {
  return plan.agreement.map(({ id, kappa, reactive_first, reactive_second, half_width }) => ({
    agreement: id,
    size: ask(
      planningKappa,
      { kappa, reactiveFirst: reactive_first, reactiveSecond: reactive_second, halfWidth: half_width },
      { level: plan.interval.level, seed: seedOf(`agreement ${id}`) },
    ),
  }));
}
