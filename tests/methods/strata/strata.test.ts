import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { commonOddsRatio } from "../../../src/methods/strata/common-odds-ratio.ts";
import { fisher } from "../../../src/methods/strata/fisher.ts";
import { funnelLimits } from "../../../src/methods/strata/funnel-limits.ts";
import { homogeneity } from "../../../src/methods/strata/homogeneity.ts";
import { trend } from "../../../src/methods/strata/trend.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const stratum = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 40 })).chain((total) =>
  fc.record({
    label: fc.constantFrom("site B", "site O", "site T"),
    total: fc.constant(total),
    count: fc.integer({ min: 0, max: total }),
  }),
);
const STRATA = fc.array(stratum, { minLength: 1, maxLength: 6 });
const cell = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 30 }));

describe("every method on strata", () => {
  it("gives finite numbers or a note: homogeneity", () => {
    fc.assert(
      fc.property(STRATA, (strata) => {
        expect(faultsOf(compute(homogeneity, { strata }))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it("gives finite numbers or a note: trend", () => {
    const scored = fc.array(
      fc.tuple(stratum, fc.integer({ min: 0, max: 3 })).map(([entry, score]) => ({ ...entry, score })),
      { minLength: 2, maxLength: 6 },
    );
    fc.assert(
      fc.property(scored, (strata) => {
        expect(faultsOf(compute(trend, { strata }))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it("gives finite numbers or a note: Fisher's test", () => {
    fc.assert(
      fc.property(stratum, stratum, (one, other) => {
        const [first, second] = [one, other].map(({ count, total }) => ({ count, total }));
        if (first === undefined || second === undefined) return;
        expect(faultsOf(compute(fisher, { first, second }))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it("gives finite numbers or a note: common odds ratio", () => {
    const table = fc.record({
      label: fc.constant("site"),
      firstWith: cell,
      firstWithout: cell,
      secondWith: cell,
      secondWithout: cell,
    });
    fc.assert(
      fc.property(fc.array(table, { minLength: 1, maxLength: 4 }), (strata) => {
        expect(faultsOf(compute(commonOddsRatio, { strata }))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe("homogeneity", () => {
  it("leaves a stratum with nobody out of the test, and keeps it in the list", () => {
    const strata = [
      { label: "B", count: 20, total: 30 },
      { label: "K", count: 0, total: 0 },
      { label: "O", count: 15, total: 30 },
    ];
    const { values, notes } = compute(homogeneity, { strata });
    expect(values.degreesOfFreedom).toBe(1);
    expect(values.strata.map(({ label }) => label)).toEqual(["B", "K", "O"]);
    expect(values.strata[1]?.proportion.value).toBeNull();
    expect(notes).toMatchObject([{ code: "no_observations", path: "strata.1" }]);
  });

  it("warns of small expected counts, and draws tables where there are too many", () => {
    const few = [
      { label: "B", count: 1, total: 10 },
      { label: "O", count: 0, total: 12 },
    ];
    expect(compute(homogeneity, { strata: few }).notes.map(({ code }) => code)).toContain(
      "small_expected_counts",
    );
    const many = Array.from({ length: 12 }, (_, at) => ({
      label: `${at}`,
      count: 36 + ((at * 7) % 9),
      total: 80,
    }));
    const { values, notes } = compute(homogeneity, { strata: many }, { draws: 500 });
    expect(notes.map(({ code }) => code)).toContain("simulated");
    expect(values.draws).toBe(500);
    expect(values.monteCarloError).toBeGreaterThan(0);
  });
});

describe("trend", () => {
  it("turns round when the scores do", () => {
    const strata = [
      { label: "1", count: 5, total: 40, score: 1 },
      { label: "2", count: 9, total: 40, score: 2 },
      { label: "3", count: 16, total: 40, score: 4 },
    ];
    const up = compute(trend, { strata }).values;
    const down = compute(trend, {
      strata: strata.map((entry) => ({ ...entry, score: -entry.score })),
    }).values;
    expectClose(down.z, -(up.z as number), { relative: 1e-12 }, "z");
    expectClose(down.exactDecreasing, up.exactIncreasing as number, { relative: 1e-9 }, "one-sided");
    expectClose(down.exactPValue, up.exactPValue as number, { relative: 1e-9 }, "two-sided");
    expect(up.z).toBeGreaterThan(0);
  });
});

describe("the common odds ratio", () => {
  it("is one over itself when the groups change places, and that of the only stratum", () => {
    const table = { label: "only", firstWith: 12, firstWithout: 30, secondWith: 7, secondWithout: 41 };
    const here = compute(commonOddsRatio, { strata: [table] }).values;
    expectClose(here.commonOddsRatio.value, (12 * 41) / (30 * 7), { relative: 1e-12 }, "ratio");
    const swapped = {
      label: "only",
      firstWith: table.secondWith,
      firstWithout: table.secondWithout,
      secondWith: table.firstWith,
      secondWithout: table.firstWithout,
    };
    const there = compute(commonOddsRatio, { strata: [swapped] }).values;
    expectClose(
      there.commonOddsRatio.lower,
      1 / (here.commonOddsRatio.upper as number),
      { relative: 1e-12 },
      "limit",
    );
    expect(there.chiSquare).toBeCloseTo(here.chiSquare as number, 10);
  });
});

describe("funnel limits", () => {
  it("narrow with the total, keep the target inside, and widen with the level", () => {
    for (const method of ["interpolated_exact", "normal", "standard_deviations"] as const) {
      const totals = [20, 50, 100, 300, 1000, 10_000];
      const { limits } = compute(funnelLimits, { target: 0.08, totals }, { method, truncate: false }).values;
      limits.forEach(({ warning, action }, at) => {
        expect(warning.lower).toBeLessThan(0.08);
        expect(warning.upper).toBeGreaterThan(0.08);
        expect(action.lower).toBeLessThan(warning.lower as number);
        expect(action.upper).toBeGreaterThan(warning.upper as number);
        if (at > 0) expect(action.upper).toBeLessThan(limits[at - 1]?.action.upper as number);
      });
    }
  });
});
