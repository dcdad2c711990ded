import { compute } from "../../../src/core/method.ts";
import { decisionFamily } from "../../../src/methods/decision/family.ts";
import type { Check } from "./reference-case.ts";

export const decisionChecks: Readonly<Record<string, Check>> = {
  "Y-01": ({ p, alpha }) => {
    const criteria = (p as number[]).map((pValue, at) => ({ label: `${at + 1}`, pValue }));
    const { values } = compute(decisionFamily, { criteria }, { alpha: alpha as number });
    const adjusted = values.criteria.flatMap(({ label, bonferroni, holm, benjaminiHochberg }) => [
      [`bonferroni${label}`, bonferroni],
      [`holm${label}`, holm],
      [`bh${label}`, benjaminiHochberg],
    ]);
    return {
      ...Object.fromEntries(adjusted),
      rejectedBonferroni: values.shown.bonferroni,
      rejectedHolm: values.shown.holm,
      rejectedBh: values.shown.benjaminiHochberg,
    };
  },
};
