import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { jointAnalytes } from "../../../src/methods/accuracy/joint-analytes.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const people = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 60 }));
const row = fc.array(people, { minLength: 4, maxLength: 4 });
const TABLES = fc.array(row, { minLength: 4, maxLength: 4 });

/** Signs of the two analytes, in the order of rows and columns. */
const SIGNS = [
  [1, 1],
  [1, 0],
  [0, 1],
  [0, 0],
] as const;

/** One entry per person: is the first analyte wrong, is the second. */
function errorsByPerson(table: readonly (readonly number[])[], rows: readonly number[]): [number, number][] {
  return rows.flatMap((at) =>
    (table[at] ?? []).flatMap((count, column) => {
      const [truth, result] = [SIGNS[at] as readonly number[], SIGNS[column] as readonly number[]];
      const errors: [number, number] = [Number(truth[0] !== result[0]), Number(truth[1] !== result[1])];
      return Array.from({ length: count }, () => errors);
    }),
  );
}

/** Pearson's correlation by its definition. */
function correlation(pairs: readonly (readonly [number, number])[]): number | null {
  const mean = (at: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[at], 0) / pairs.length;
  const [x, y] = [mean(0), mean(1)];
  const product = pairs.reduce((sum, pair) => sum + (pair[0] - x) * (pair[1] - y), 0);
  const spread = (at: 0 | 1, centre: number) =>
    pairs.reduce((sum, pair) => sum + (pair[at] - centre) ** 2, 0);
  const scale = Math.sqrt(spread(0, x) * spread(1, y));
  return scale > 1e-12 ? product / scale : null;
}

describe("two analytes on one device", () => {
  it("give finite numbers, or a note", () => {
    fc.assert(
      fc.property(TABLES, (table) => {
        expect(faultsOf(compute(jointAnalytes, { table }))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it("correlate their errors as a list of people does", () => {
    fc.assert(
      fc.property(TABLES, (table) => {
        const { errorCorrelation } = compute(jointAnalytes, { table }).values;
        const named = {
          all: [0, 1, 2, 3],
          bothPositive: [0],
          firstOnly: [1],
          secondOnly: [2],
          bothNegative: [3],
        };
        for (const [name, rows] of Object.entries(named)) {
          const expected = correlation(errorsByPerson(table, rows));
          const actual = errorCorrelation[name as "all"];
          if (expected === null) expect(actual).toBeNull();
          else expectClose(actual, expected, { relative: 1e-9, absolute: 1e-10 }, name);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("change places when the analytes change their names", () => {
    const order = [0, 2, 1, 3];
    fc.assert(
      fc.property(TABLES, (table) => {
        const swapped = order.map((at) => order.map((column) => table[at]?.[column] ?? 0));
        const here = compute(jointAnalytes, { table }).values;
        const there = compute(jointAnalytes, { table: swapped }).values;
        expect(there.bothRight).toEqual(here.bothRight);
        const { analyte: _first, ...first } = here.crossReaction[0] ?? { analyte: "first" };
        const { analyte: _second, ...second } = there.crossReaction[1] ?? { analyte: "second" };
        expect(second).toEqual(first);
        const [one, other] = [here.errorCorrelation.secondOnly, there.errorCorrelation.firstOnly];
        if (one === null) expect(other).toBeNull();
        else expectClose(other, one, { relative: 1e-12, absolute: 1e-15 }, "phi");
      }),
      { numRuns: 100 },
    );
  });
});
