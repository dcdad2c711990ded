import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { exactUnconditional } from "../../../src/methods/comparison/exact-unconditional.ts";
import { noninferiority } from "../../../src/methods/comparison/noninferiority.ts";
import { paired } from "../../../src/methods/comparison/paired.ts";
import { unpaired } from "../../../src/methods/comparison/unpaired.ts";
import { expectClose } from "../../tolerance.ts";

/**
 * Made by SciPy 1.10.1 and statsmodels 0.13.5 with `tests/reference/scripts/second-opinion-comparison.py`,
 * which says what comes from the libraries and what is written there from its definition.
 */
type Four = readonly [number, number, number, number];
type Pair = readonly [number, number];
interface Opinion {
  readonly barnard: readonly { table: Four; scipy: readonly number[]; grid: readonly number[] }[];
  readonly twoGroups: readonly ({ table: Four } & Readonly<Record<string, unknown>>)[];
  readonly margins: readonly {
    table: Four;
    scale: "difference" | "ratio";
    margin: number;
    larger: number;
    largerShrunk: number;
  }[];
  readonly paired: readonly ({ counts: Four; tango: Pair } & Readonly<Record<string, unknown>>)[];
  readonly exactIntervals: readonly { table: Four; limits: Pair }[];
}
const file = new URL("../../reference/second-opinion-comparison.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Opinion;

const groupsOf = ([a, m, b, n]: Four) => ({
  first: { count: a, total: m },
  second: { count: b, total: n },
});
const countsOf = ([both, firstOnly, secondOnly, neither]: Four) => ({ both, firstOnly, secondOnly, neither });

describe("exact unconditional", () => {
  it.each(opinion.barnard)("p-values of $table", ({ table, scipy, grid }) => {
    const { twoSided, greater, less } = compute(exactUnconditional, groupsOf(table)).values;
    for (const [at, p] of [twoSided, greater, less].entries()) {
      expectClose(p, grid[at] as number, { relative: 1e-9 }, `grid ${at}`);
      // SciPy's search sometimes ends below the maximum, by up to 2 % here, and never above it.
      const theirs = scipy[at] as number;
      expect(p, `SciPy ${at}`).toBeGreaterThan(theirs * (1 - 1e-9));
      expectClose(p, theirs, { relative: 0.02 }, `SciPy ${at}`);
    }
  });

  it("equals SciPy in most of them", () => {
    const apart = opinion.barnard.map(({ table, scipy }) => {
      const { twoSided } = compute(exactUnconditional, groupsOf(table)).values;
      return Math.abs((twoSided as number) / (scipy[0] as number) - 1);
    });
    expect(apart.filter((error) => error < 1e-9).length).toBeGreaterThanOrEqual(7);
  });

  it.each(opinion.exactIntervals)("limits of $table", ({ table, limits }) => {
    const { difference } = compute(exactUnconditional, groupsOf(table)).values;
    expectClose(difference.lower, limits[0], { absolute: 5e-9 }, "lower");
    expectClose(difference.upper, limits[1], { absolute: 5e-9 }, "upper");
  });
});

const DIFFERENCES = ["mee", "miettinen_nurminen", "newcombe", "agresti_caffo"] as const;
const RATIOS = { ratio_score: "score", ratio_miettinen_nurminen: "miettinen_nurminen" } as const;

describe("two groups", () => {
  it.each(opinion.twoGroups)("limits of $table", (row) => {
    for (const level of [0.9, 0.95, 0.99]) {
      const theirs = row[`${level}`] as Readonly<Record<string, Pair | undefined>>;
      for (const differenceInterval of DIFFERENCES) {
        const limits = theirs[differenceInterval];
        if (limits === undefined) continue;
        const options = { level, differenceInterval, truncate: false };
        const { difference } = compute(unpaired, groupsOf(row.table), options).values;
        expectClose(difference.lower, limits[0], { relative: 1e-9, absolute: 1e-12 }, differenceInterval);
        expectClose(difference.upper, limits[1], { relative: 1e-9, absolute: 1e-12 }, differenceInterval);
      }
      for (const [name, ratioInterval] of Object.entries(RATIOS)) {
        const limits = theirs[name];
        if (limits === undefined) continue;
        const { ratio } = compute(unpaired, groupsOf(row.table), { level, ratioInterval }).values;
        expectClose(ratio.lower, limits[0], { relative: 1e-8 }, name);
        expectClose(ratio.upper, limits[1], { relative: 1e-8 }, name);
      }
    }
  });

  it.each(opinion.margins)("$scale of $table against $margin", (row) => {
    const { table, scale, margin } = row;
    // "Larger than a margin below no effect" is asked as non-inferiority, of one above as its mirror image.
    const below = scale === "difference" ? margin < 0 : margin < 1;
    const input = {
      unpaired: groupsOf(table),
      scale,
      margin: scale === "difference" ? Math.abs(margin) : margin,
      direction: below ? ("higher_is_better" as const) : ("lower_is_better" as const),
    };
    for (const [kind, expected] of [
      ["plain", row.larger],
      ["shrunk", row.largerShrunk],
    ] as const) {
      const found = compute(noninferiority, input, {
        differenceInterval: kind === "plain" ? "mee" : "miettinen_nurminen",
        ratioInterval: kind === "plain" ? "score" : "miettinen_nurminen",
      });
      const p = found.values.noninferiority.pValue as number;
      expectClose(below ? p : 1 - p, expected, { relative: 1e-9, absolute: 1e-14 }, kind);
    }
  });
});

describe("paired", () => {
  it.each(opinion.paired)("$counts", (row) => {
    const counts = countsOf(row.counts);
    const { difference, mcNemar } = compute(paired, counts).values;
    expectClose(difference.lower, row.tango[0], { relative: 1e-8, absolute: 1e-12 }, "Tango lower");
    expectClose(difference.upper, row.tango[1], { relative: 1e-8, absolute: 1e-12 }, "Tango upper");
    for (const form of ["exact", "asymptotic", "corrected"] as const) {
      if (row[form] === undefined) continue;
      expectClose(mcNemar[form], row[form] as number, { relative: 1e-10 }, form);
    }
    for (const margin of [0.05, 0.15]) {
      const input = { paired: counts, margin, direction: "higher_is_better" as const };
      const { pValue } = compute(noninferiority, input).values.noninferiority;
      expectClose(pValue, row[`larger-${margin}`] as number, { relative: 1e-9 }, `margin ${margin}`);
    }
  });
});
