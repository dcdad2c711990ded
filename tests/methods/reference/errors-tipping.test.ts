import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { sensitivityLimits } from "../../../src/methods/reference/known-errors-limits.ts";
import { referenceTipping } from "../../../src/methods/reference/tipping.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { NONE, TABLE } from "./errors-cases.ts";

interface Grid {
  sensitivities: number[];
  specificities: number[];
  covariances: { diseased: number; nondiseased: number }[];
}
const NO_GRID: Grid = { sensitivities: [], specificities: [], covariances: [] };

describe("reference.tipping", () => {
  const asked = (measure: "sensitivity" | "specificity", threshold: number, grid: Grid) => ({
    counts: TABLE,
    criterion: { measure, threshold, direction: "at_least" as const },
    reference: { sensitivity: 0.98, specificity: 0.998 },
    covariance: NONE,
    grid,
  });
  const steps = (from: number, to: number) =>
    Array.from({ length: 41 }, (_, at) => from + ((to - from) * at) / 40);

  it("borders stand exactly where the verdict of a grid changes", () => {
    const specificities = steps(0.99, 1);
    const grid = { ...NO_GRID, sensitivities: [0.98], specificities };
    const { cells, borders } = compute(referenceTipping, asked("sensitivity", 0.92, grid)).values;
    const border = borders.referenceSpecificity.above.at as number;
    expect(border).toBeGreaterThan(0.998);
    for (const { referenceSpecificity, verdict } of cells) {
      expect(verdict).toBe(referenceSpecificity < border ? "met" : "undecided");
    }
  });

  it("the limit stands at the threshold on the border", () => {
    const { borders } = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID)).values;
    const specificity = borders.referenceSpecificity.above.at as number;
    const errors = { reference: { sensitivity: 0.98, specificity }, covariance: NONE };
    expectClose(sensitivityLimits(TABLE, errors, 0.95)?.lower, 0.92, { relative: 1e-10 });
  });

  it("independent errors: the reference's sensitivity alone doesn't move the kit's", () => {
    const sensitivities = steps(0.9, 1);
    const grid = { ...NO_GRID, sensitivities, specificities: [0.998] };
    const { cells, believed } = compute(referenceTipping, asked("sensitivity", 0.92, grid)).values;
    for (const cell of cells) {
      expectClose(cell.value, believed.value as number, { relative: 1e-12 });
      expectClose(cell.lower, believed.lower as number, { relative: 1e-9 });
    }
  });

  it("judges by the estimate alone, one-sided, and the mirror image of a criterion", () => {
    const point = compute(referenceTipping, asked("specificity", 0.98, NO_GRID), { rule: "point" }).values;
    expect(point.believed.verdict).toBe((point.believed.value ?? 0) >= 0.98 ? "met" : "not_met");
    const one = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID), { sides: "one" }).values;
    const two = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID), { level: 0.9 }).values;
    expect(one.believed).toEqual(two.believed);
    const base = asked("sensitivity", 0.99, NO_GRID);
    const most = { ...base, criterion: { ...base.criterion, direction: "at_most" as const } };
    expect(compute(referenceTipping, most).values.believed.verdict).toBe("met");
  });

  it("refuses a grid that is too large and a one-sided level of a half", () => {
    const many = Array.from({ length: 101 }, (_, at) => at / 100);
    const grid = {
      sensitivities: many,
      specificities: many,
      covariances: [NONE, NONE, NONE],
    };
    expect(() => compute(referenceTipping, asked("sensitivity", 0.9, grid))).toThrow(/20,000/);
    const half = { sides: "one" as const, level: 0.5 };
    expect(() => compute(referenceTipping, asked("sensitivity", 0.9, NO_GRID), half)).toThrow(InputError);
  });

  it("says of each reference whether the table allows it, and why a cell is empty", () => {
    const grid = { ...NO_GRID, sensitivities: [0.98], specificities: [1, 0.998, 0.97] };
    const found = compute(referenceTipping, asked("sensitivity", 0.92, grid));
    // 9 of 798 kit-negatives are reference positive: a specificity below 789 / 798 can't be.
    expect(found.values.cells.map(({ fits }) => fits)).toEqual([true, true, false]);
    expect(found.values.cells[2]).toMatchObject({ value: null, verdict: "not_estimable" });
    expect(found.notes.map(({ code, path }) => [code, path])).toContainEqual(["incompatible", "cells"]);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says null with notes where nobody was observed", () => {
    const counts = { bothReactive: 0, kitOnly: 0, referenceOnly: 0, neither: 0 };
    const grid = { ...NO_GRID, sensitivities: [1], specificities: [1] };
    const found = compute(referenceTipping, { ...asked("specificity", 0.9, grid), counts });
    expect(found.values.believed.verdict).toBe("not_estimable");
    expect(faultsOf(found)).toEqual([]);
  });
});
