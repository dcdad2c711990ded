import { whatIf } from "../../../methods/planning/what-if.ts";
import { meanPrevalence } from "../../../records/plan/check-plan-together.ts";
import type { Plan, PlanCriterion } from "../../../records/plan/plan.ts";
import { demandOf } from "../../criteria.ts";
import type { WhatIfPlan } from "../document.ts";
import { criterionOptions, type PlanWorktop, usableShares } from "../worktop.ts";
import { HORIZON } from "./criteria.ts";

/** Other values of what was assumed for a criterion: those stated, else some around the plan's own. */
export function whatIfSection(worktop: PlanWorktop): WhatIfPlan[] {
  const { plan } = worktop;
  return plan.what_if.map((stated) => {
    const criterion = plan.criteria.find(({ id }) => id === stated.criterion) as PlanCriterion;
    const { power, level } = worktop.powerOf(criterion);
    const { threshold, direction } = demandOf(criterion);
    const around = valuesAround(plan, criterion);
    const input = {
      expected: stated.expected ?? around.expected,
      thresholds: stated.thresholds ?? [threshold],
      prevalences: stated.prevalences ?? around.prevalences,
      direction,
      of: criterion.measure === "specificity" ? ("negatives" as const) : ("positives" as const),
    };
    const options = {
      ...criterionOptions(plan, criterion, level).options,
      power,
      assurance: plan.recruitment.assurance,
      usable: usableShares(plan).pair,
      horizon: HORIZON,
    };
    return { criterion: criterion.id, grid: worktop.ask(whatIf, input, options) };
  });
}

/**
 * Around what is expected: half of the way towards the threshold, and half of the way towards perfection. Around
 * a prevalence: a range's ends and middle, else half of it, itself, and half as much again.
 */
function valuesAround(plan: Plan, { analyte, measure, expected, ...criterion }: PlanCriterion) {
  const { threshold, direction } = demandOf({ analyte, measure, expected, ...criterion } as PlanCriterion);
  const best = direction === "at_least" ? 1 : 0;
  const near = [
    (expected + threshold) / 2,
    (3 * expected + threshold) / 4,
    expected,
    (3 * expected + best) / 4,
    (expected + best) / 2,
  ];
  const stated = plan.analytes.find(({ id }) => id === analyte)?.prevalence;
  return {
    expected: distinct(near),
    prevalences:
      measure === "invalid_rate" || stated === undefined ? [] : distinct(prevalencesAround(stated)),
  };
}

function prevalencesAround(stated: Plan["analytes"][number]["prevalence"]): number[] {
  const mean = meanPrevalence(stated);
  if (stated.low !== undefined && stated.high !== undefined) return [stated.low, mean, stated.high];
  return [mean / 2, mean, Math.min((3 * mean) / 2, (1 + mean) / 2)];
}

/** Rounded to something sayable, above 0 and below 1, each once, in order. */
function distinct(values: readonly number[]): number[] {
  const rounded = values.map(sayable).filter((value) => value > 0 && value < 1);
  return [...new Set(rounded)].sort((one, other) => one - other);
}

/** Two digits of the distance to 0 or 1, four decimals at least. */
function sayable(value: number): number {
  const away = Math.min(value, 1 - value);
  return Number(value.toFixed(Math.min(15, Math.max(4, 1 - Math.floor(Math.log10(away))))));
}
