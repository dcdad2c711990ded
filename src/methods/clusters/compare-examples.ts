import type { WorkedExample } from "../../core/method.ts";
import { CONTROL_LITTERS, TREATED_LITTERS } from "./proportion-examples.ts";

const UNITS = [5, 7, 3, 6, 4, 9, 6];
const together = (counts: readonly number[]) => counts.map((count, at) => ({ count, total: UNITS[at] ?? 0 }));
const TWO_TESTS = { first: together([4, 6, 2, 5, 3, 8, 6]), second: together([3, 6, 1, 3, 3, 5, 6]) };

export const compareExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two tests on the same seven clusters, normal",
    input: TWO_TESTS,
    options: { design: "same", reference: "normal" },
    expect: {
      "difference.value": 0.175,
      standardError: 0.0676021603451645,
      statistic: 2.5886746681834,
      "difference.lower": 0.0425022004463757,
      "difference.upper": 0.307497799553624,
    },
    tolerance: { relative: 1e-8 },
    source: "obuchowski1998",
    recomputedBy: "R 4.2.2: ratio estimator of (count1 - count2) / total over clusters",
    memory: true,
  },
  {
    name: "survivors of two groups of litters, Rao and Scott",
    input: { first: CONTROL_LITTERS, second: TREATED_LITTERS },
    expect: {
      "raoScott.unadjusted": 8.89989322357965,
      "raoScott.chiSquare": 4.04061050113638,
      "raoScott.pValue": 0.0444177505378994,
    },
    tolerance: { relative: 1e-8 },
    source: "rao1992",
    recomputedBy: "R 4.2.2: counts and totals divided by each group's design effect, Pearson chi-square",
    memory: true,
  },
  {
    name: "one cluster a side: no variance",
    input: { first: [{ count: 9, total: 10 }], second: [{ count: 8, total: 10 }] },
    expect: { "difference.lower": null, pValue: null, "raoScott.unadjusted": 0.392156862745098 },
    tolerance: { relative: 1e-8 },
    source: "no publication: by definition",
    recomputedBy: "R 4.2.2 chisq.test(correct = FALSE)",
  },
];
