import type { Fault } from "../yaml-file.ts";
import type { Plan } from "./plan.ts";

const ROUNDING = 1e-9;

/** What one person says about two analytes: there must be two, and the shares must be possible. */
export function checkTogether(plan: Plan, fault: Fault): void {
  if (plan.together === undefined) return;
  if (plan.analytes.length < 2) {
    fault(["together"], "no such field: the plan has one analyte", plan.together);
    return;
  }
  checkBothPositive(plan, fault);
  checkCorrelation(plan, plan.together.correlation, fault);
}

/** People with both can't be more than people with one. */
function checkBothPositive({ together, analytes }: Plan, fault: Fault): void {
  const both = together?.both_positive;
  if (both === undefined) return;
  if (analytes.length > 2) {
    fault(["together", "both_positive"], "no such share: it speaks of two analytes only", both);
    return;
  }
  const [one, other] = analytes.map(({ prevalence }) => meanPrevalence(prevalence)) as [number, number];
  const least = Math.max(0, one + other - 1);
  const most = Math.min(one, other);
  if (both >= least - ROUNDING && both <= most + ROUNDING) return;
  const expected = `${short(least)} to ${short(most)}, which the two prevalences allow`;
  fault(["together", "both_positive"], expected, both);
}

/** Two results that are each mostly right can't hang together in every degree. */
function checkCorrelation({ criteria }: Plan, stated: number, fault: Fault): void {
  for (const measure of ["sensitivity", "specificity"] as const) {
    const expected = criteria.filter((one) => one.measure === measure);
    for (const [at, one] of expected.entries()) {
      for (const other of expected.slice(at + 1)) {
        if (one.analyte === other.analyte) continue;
        const { least, most } = correlationRange(one.expected, other.expected);
        if (stated >= least - ROUNDING && stated <= most + ROUNDING) continue;
        const range = `${short(least)} to ${short(most)}, all that the values expected in ${one.id} and ${other.id} allow`;
        fault(["together", "correlation"], range, stated);
        return;
      }
    }
  }
}

/** The correlations that two events of these probabilities can have. */
function correlationRange(first: number, second: number) {
  const spread = Math.sqrt(first * (1 - first) * second * (1 - second));
  return {
    least: (Math.max(0, first + second - 1) - first * second) / spread,
    most: (Math.min(first, second) - first * second) / spread,
  };
}

/** The prevalence that a plan reckons with where one number is needed: known, counted, prior's mean, middle. */
export function meanPrevalence(stated: Plan["analytes"][number]["prevalence"]): number {
  if (stated.value !== undefined) return stated.value;
  if (stated.positive !== undefined && stated.tested !== undefined) {
    return (stated.positive + 0.5) / (stated.tested + 1);
  }
  if (stated.a !== undefined && stated.b !== undefined) return stated.a / (stated.a + stated.b);
  return ((stated.low as number) + (stated.high as number)) / 2;
}

const short = (share: number) => String(Number(share.toFixed(6)));
