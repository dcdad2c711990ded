import { compute } from "../../../src/core/method.ts";
import { planningPrecisionNormal } from "../../../src/methods/planning/precision-normal.ts";
import type { Check } from "./reference-case.ts";

export const planningPrecisionChecks: Readonly<Record<string, Check>> = {
  "S-01": ({ se, sp, halfWidth, prevalence, level }) => {
    const input = {
      sensitivity: se as number,
      specificity: sp as number,
      halfWidth: halfWidth as number,
      prevalence: prevalence as number,
    };
    const { values } = compute(planningPrecisionNormal, input, { level: level as number });
    return {
      nDiseased: values.diseased,
      nNondiseased: values.nondiseased,
      nForSe: values.enrolledForSensitivity,
      nForSp: values.enrolledForSpecificity,
      nForSeRounded: values.fromRounded.enrolledForSensitivity,
      nForSpRounded: values.fromRounded.enrolledForSpecificity,
    };
  },
};
