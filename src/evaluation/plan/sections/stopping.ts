import { planningGroupSequential } from "../../../methods/planning/group-sequential.ts";
import { planningStoppingRule } from "../../../methods/planning/stopping-rule.ts";
import { planningTwoStage } from "../../../methods/planning/two-stage.ts";
import type { PlanCriterion, PlanStopping } from "../../../records/plan/plan.ts";
import { demandOf } from "../../criteria.ts";
import type { StoppingPlan } from "../document.ts";
import type { PlanWorktop } from "../worktop.ts";

/** Rules for stopping early, each followed through for a bad kit, one at the threshold, and a good one. */
export function stoppingSection(worktop: PlanWorktop): StoppingPlan[] {
  return worktop.plan.stopping.map((rule) => {
    const criterion = worktop.plan.criteria.find(({ id }) => id === rule.criterion) as PlanCriterion;
    const power = rule.power ?? criterion.power ?? worktop.plan.power;
    const found =
      rule.design === "two_stage"
        ? twoStages(worktop, rule, criterion, power)
        : sequential(worktop, rule, criterion, power);
    return { stopping: rule.id, criterion: rule.criterion, ...found };
  });
}

type Found = Omit<StoppingPlan, "stopping" | "criterion">;
type Looks = readonly {
  readonly total: number;
  readonly passFrom: number | null;
  readonly failAt: number | null;
}[];

function twoStages(
  worktop: PlanWorktop,
  rule: Extract<PlanStopping, { design: "two_stage" }>,
  criterion: PlanCriterion,
  power: number,
): Found {
  const { unacceptable, error, largest } = rule;
  // A design has two people at least: one could not be looked at twice.
  const options = { error, power, largest: Math.max(2, largest) };
  const found = worktop.ask(planningTwoStage, { unacceptable, expected: criterion.expected }, options);
  const confirmed = (["smallestExpected", "minimax"] as const).flatMap((name) => {
    const design = found.values[name];
    return design === null ? [] : [followed(worktop, rule, criterion, name, design.looks)];
  });
  return { twoStage: found, groupSequential: null, confirmed };
}

function sequential(
  worktop: PlanWorktop,
  rule: Extract<PlanStopping, { design: "group_sequential" }>,
  criterion: PlanCriterion,
  power: number,
): Found {
  const { unacceptable, looks: fractions, error, spending, failure } = rule;
  const input = { unacceptable, expected: criterion.expected, fractions };
  const found = worktop.ask(planningGroupSequential, input, {
    error,
    power,
    spending,
    failure,
    horizon: HORIZON,
  });
  const { looks } = found.values;
  const confirmed = looks.length === 0 ? [] : [followed(worktop, rule, criterion, "sequential", looks)];
  return { twoStage: null, groupSequential: found, confirmed };
}

/** Largest final number looked at. */
const HORIZON = 5000;

function followed(
  worktop: PlanWorktop,
  { id, unacceptable }: PlanStopping,
  criterion: PlanCriterion,
  name: StoppingPlan["confirmed"][number]["name"],
  looks: Looks,
): StoppingPlan["confirmed"][number] {
  const truths = [...new Set([unacceptable, demandOf(criterion).threshold, criterion.expected])];
  const input = {
    looks: looks.map(({ total, passFrom, failAt }) => ({ total, passFrom, failAt })),
    truths: truths.sort((one, other) => one - other),
  };
  return {
    name,
    rule: worktop.ask(planningStoppingRule, input, { seed: worktop.seedOf(`stopping ${id} ${name}`) }),
  };
}
