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
    const { direction } = demandOf(criterion);
    const around = valuesAround(plan, criterion);
    const input = {
      expected: stated.expected ?? around.expected,
      thresholds: stated.thresholds ?? around.thresholds,
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
 * Around what is expected, in steps that can be said: three steps towards the threshold and two towards perfection.
 * Around the threshold: one step easier and one harder. Around a prevalence: a range's ends and middle, else half
 * of it, itself, and half as much again.
 */
function valuesAround(plan: Plan, criterion: PlanCriterion) {
  const { analyte, measure, expected } = criterion;
  const { threshold, direction } = demandOf(criterion);
  const forward = direction === "at_least" ? 1 : -1;
  const gap = Math.abs(expected - threshold);
  const left = direction === "at_least" ? 1 - expected : expected;
  const near = steps(expected, forward * stepWithin(Math.min(gap, left)), [-3, -2, -1, 0, 1, 2]);
  const demands = steps(threshold, forward * stepWithin(gap), [-1, 0, 1]);
  const reached = (value: number) => forward * (value - threshold) > 0;
  const stated = plan.analytes.find(({ id }) => id === analyte)?.prevalence;
  return {
    expected: distinct(reached(expected) ? near.filter(reached) : [expected]),
    thresholds: distinct(demands),
    prevalences:
      measure === "invalid_rate" || stated === undefined ? [] : distinct(prevalencesAround(stated)),
  };
}

function steps(from: number, step: number, times: readonly number[]): number[] {
  return times.map((many) => from + many * step);
}

/** The largest of 1, 2 or 5 times a power of ten that fits about one and a half times into a distance. */
function stepWithin(distance: number): number {
  const room = distance > 0 ? distance / 1.5 : 0.01;
  const power = Math.pow(10, Math.floor(Math.log10(room * (1 + 1e-9))));
  const fit = [5, 2, 1].find((times) => times * power <= room * (1 + 1e-9)) ?? 1;
  return fit * power;
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
