import { compute } from "../../src/core/method.ts";
import { beggGreenes } from "../../src/methods/verification/begg-greenes.ts";
import { imputed } from "../../src/methods/verification/imputed.ts";
import { sensitivity } from "../../src/methods/verification/sensitivity.ts";
import type { BenchRow } from "./run.ts";

const strata = [
  {
    label: "everybody",
    reactive: { diseased: 231, nondiseased: 32, unverified: 166 },
    nonreactive: { diseased: 27, nondiseased: 54, unverified: 140 },
  },
];
const criterion = { measure: "sensitivity" as const, threshold: 0.8, direction: "at_least" as const };

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  ["corrected for verification", 0.05, () => compute(beggGreenes, { strata })],
  ["20,000 completed tables", 0.5, () => compute(imputed, { strata }, { imputations: 20_000 })],
  ["verification that depends on the disease", 0.25, () => compute(sensitivity, { strata, criterion })],
];

/** Each question against its seconds. */
export async function benchVerification(): Promise<BenchRow[]> {
  return QUESTIONS.map(([name, limit, ask]) => {
    ask();
    const start = performance.now();
    ask();
    const seconds = (performance.now() - start) / 1000;
    const detail = `${(1000 * seconds).toFixed(1)} ms, against ${limit} s`;
    return { name, ratio: seconds / limit, bar: 1, detail };
  });
}
