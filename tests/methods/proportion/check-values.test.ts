import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { predictiveValues } from "../../../src/methods/predictive/bayes.ts";
import { criterion } from "../../../src/methods/proportion/criterion.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { expectClose } from "../../tolerance.ts";

/** `tests/reference/check-values.json`: computed for this project before its methods were written. */
interface CheckValues {
  readonly intervals: readonly (Readonly<
    Record<"wilson" | "clopper_pearson" | "jeffreys", [number, number]>
  > & {
    count: number;
    total: number;
  })[];
  readonly zeroFailuresNeeded: Readonly<
    Record<"thresholds" | "oneSidedExact" | "twoSidedExact" | "twoSidedWilson", number[]>
  >;
  readonly onePpv: { sensitivity: number; specificity: number; prevalences: number[]; ppvPercent: number[] };
}
const file = new URL("../../reference/check-values.json", import.meta.url);
const values = JSON.parse(readFileSync(file, "utf8")) as CheckValues;
const HALF_A_UNIT = 0.005 * (1 + 1e-9);

describe("the check values", () => {
  it.each(values.intervals)("$count of $total", (row) => {
    for (const method of ["wilson", "clopper_pearson", "jeffreys"] as const) {
      const { lower, upper } = proportionInterval(row.count, row.total, { method });
      expectClose(100 * lower, row[method][0], { absolute: HALF_A_UNIT }, `${method} lower`);
      expectClose(100 * upper, row[method][1], { absolute: HALF_A_UNIT }, `${method} upper`);
    }
  });

  it("gives the totals without a failure that reach 90, 95, 98 and 99 %", () => {
    const needed = values.zeroFailuresNeeded;
    const settled = (options: object) =>
      needed.thresholds.map((threshold) => {
        const input = { count: 1, total: 1, threshold, direction: "at_least" } as const;
        return compute(criterion, input, options).values.settledBy;
      });
    expect(settled({ sides: "one" })).toEqual(needed.oneSidedExact);
    expect(settled({})).toEqual(needed.twoSidedExact);
    expect(settled({ method: "wilson" })).toEqual(needed.twoSidedWilson);
  });

  it("gives the PPV of one test at several prevalences", () => {
    const { sensitivity, specificity, prevalences, ppvPercent } = values.onePpv;
    prevalences.forEach((prevalence, at) => {
      const { ppv } = predictiveValues(sensitivity, specificity, prevalence);
      expectClose(100 * (ppv ?? 0), ppvPercent[at] as number, { absolute: HALF_A_UNIT }, `${prevalence}`);
    });
  });
});
