import { compute } from "../../../src/core/method.ts";
import { planningAtLeastOne } from "../../../src/methods/planning/at-least-one.ts";
import { planningCriterionPower } from "../../../src/methods/planning/criterion-power.ts";
import { planningCriterionSize } from "../../../src/methods/planning/criterion-size.ts";
import { planningZeroEvents } from "../../../src/methods/planning/zero-events.ts";
import type { Check } from "./reference-case.ts";

export const planningCriterionChecks: Readonly<Record<string, Check>> = {
  "S-03": ({ pairs }) => {
    const sizes = (pairs as [number, number][]).flatMap(([expected, threshold]) => {
      const asked = { expected, threshold, direction: "at_least" } as const;
      const { values } = compute(planningCriterionSize, asked, { rule: "one_sided", power: 0.95 });
      return [
        [`first_${expected}_${threshold}`, values.first.total],
        [`stable_${expected}_${threshold}`, values.stays.total],
      ];
    });
    return Object.fromEntries(sizes);
  },
  "S-07": ({ n }) => {
    const limits = (n as number[]).flatMap((total) => {
      const { values } = compute(planningZeroEvents, { total });
      return [
        [`n${total}_ruleOfThree`, values.ruleOfThree],
        [`n${total}_exactOneSided95`, values.exactOneSided],
        [`n${total}_exactTwoSided95`, values.exactTwoSided],
      ];
    });
    return Object.fromEntries(limits);
  },
  "S-08": ({ prevalence }) => {
    const sizes = (prevalence as number[]).map((share) => [
      `n_${share}`,
      compute(planningAtLeastOne, { prevalence: share }).values.total,
    ]);
    return Object.fromEntries(sizes);
  },
  "S-12": ({ n, p0, p1 }) => {
    const asked = { expected: p1 as number, threshold: p0 as number, direction: "at_least" } as const;
    const { values } = compute(planningCriterionPower, { ...asked, total: n as number });
    return { critical: values.needed, size: values.atThreshold, power: values.met };
  },
};
