import { compute } from "../../src/core/method.ts";
import { referenceApparent } from "../../src/methods/reference/apparent.ts";
import { referenceComposite } from "../../src/methods/reference/composite.ts";
import { referenceCorrected } from "../../src/methods/reference/corrected.ts";
import { referenceDiscrepant } from "../../src/methods/reference/discrepant.ts";
import { referenceTipping } from "../../src/methods/reference/tipping.ts";
import type { BenchRow } from "./run.ts";

const COUNTS = { bothReactive: 188, kitOnly: 14, referenceOnly: 9, neither: 789 };
const NONE = { diseased: 0, nondiseased: 0 };
const KIT = { sensitivity: 0.95, specificity: 0.99 };
const REFERENCE = { sensitivity: 0.98, specificity: 0.998 };
const INDEPENDENT = { kind: "independent" as const };
const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const axis = Array.from({ length: 41 }, (_, place) => 0.98 + place / 2000);
const tipping = (grid: readonly number[]) =>
  compute(referenceTipping, {
    counts: COUNTS,
    criterion: { measure: "sensitivity", threshold: 0.92, direction: "at_least" },
    reference: REFERENCE,
    covariance: NONE,
    grid: { sensitivities: [...grid], specificities: [...grid], covariances: [] },
  });

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  [
    "corrected with an uncertain reference, 20,000 draws",
    0.25,
    () =>
      compute(referenceCorrected, {
        counts: COUNTS,
        reference: { sensitivity: counts(98, 100), specificity: counts(399, 400) },
        covariance: NONE,
      }),
  ],
  [
    "apparent accuracy at 1,001 prevalences",
    0.05,
    () =>
      compute(referenceApparent, {
        kit: KIT,
        reference: REFERENCE,
        dependence: INDEPENDENT,
        prevalences: Array.from({ length: 1001 }, (_, place) => place / 1000),
      }),
  ],
  ["tipping: the borders alone", 0.5, () => tipping([])],
  ["tipping: borders and a grid of 41 by 41", 1, () => tipping(axis)],
  [
    "composite and discrepant, one situation each",
    0.01,
    () => [
      compute(referenceComposite, {
        kit: KIT,
        first: REFERENCE,
        second: REFERENCE,
        dependence: INDEPENDENT,
        prevalence: 0.05,
      }),
      compute(referenceDiscrepant, {
        kit: KIT,
        comparator: REFERENCE,
        resolver: REFERENCE,
        prevalence: 0.05,
      }),
    ],
  ],
];

/** Each question against its seconds. */
export async function benchReferenceErrors(): Promise<BenchRow[]> {
  return QUESTIONS.map(([name, most, ask]): BenchRow => {
    let seconds = Number.POSITIVE_INFINITY;
    for (let round = 0; round < 3; round += 1) {
      const start = performance.now();
      ask();
      seconds = Math.min(seconds, (performance.now() - start) / 1000);
    }
    return {
      name: `${name}, against ${most} s`,
      ratio: seconds / most,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(1)} ms`,
    };
  });
}
