import { compute } from "../../../src/core/method.ts";
import { referenceApparent } from "../../../src/methods/reference/apparent.ts";
import type { Against } from "../../../src/methods/reference/apparent-accuracy.ts";

export const value = (share: number) => ({ kind: "value" as const, value: share });
export const counted = (right: number, total: number) => ({ kind: "counts" as const, right, total });
export const NONE = { diseased: 0, nondiseased: 0 };
export const INDEPENDENT = { kind: "independent" as const };
export const TABLE = { bothReactive: 188, kitOnly: 14, referenceOnly: 9, neither: 789 };

/** A kit and a reference of which everything is known. */
export interface Truth {
  readonly prevalence: number;
  readonly kit: { sensitivity: number; specificity: number };
  readonly reference: { sensitivity: number; specificity: number };
  readonly covariance: { diseased: number; nondiseased: number };
}

export const TRUTHS: readonly Truth[] = [
  {
    prevalence: 0.2,
    kit: { sensitivity: 0.93, specificity: 0.97 },
    reference: { sensitivity: 0.9, specificity: 0.98 },
    covariance: NONE,
  },
  {
    prevalence: 0.3,
    kit: { sensitivity: 0.9, specificity: 0.95 },
    reference: { sensitivity: 0.95, specificity: 0.97 },
    covariance: { diseased: 0.02, nondiseased: 0.005 },
  },
  {
    prevalence: 0.15,
    kit: { sensitivity: 0.97, specificity: 0.99 },
    reference: { sensitivity: 0.95, specificity: 0.995 },
    covariance: NONE,
  },
];

/** What a study of them is expected to show, in shares of people. */
export function expectedTable({ prevalence, kit, reference, covariance }: Truth): Against {
  return compute(referenceApparent, {
    kit,
    reference,
    dependence: { kind: "covariance", ...covariance },
    prevalences: [prevalence],
  }).values.at[0] as Against;
}
