import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { clustersProportion } from "../../../src/methods/clusters/proportion.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const CLUSTER = fc
  .record({ total: fc.integer({ min: 0, max: 40 }), part: fc.double({ min: 0, max: 1, noNaN: true }) })
  .map(({ total, part }) => ({ count: Math.round(part * total), total }));
const CLUSTERS = fc.array(CLUSTER, { minLength: 1, maxLength: 20 });
const ICC = fc.constantFrom(null, 0, 0.05, 1);
const INTERVAL = fc.constantFrom<("wilson_effective" | "exact_effective" | "ratio")[]>(
  "wilson_effective",
  "exact_effective",
  "ratio",
);

describe("a proportion over clusters", () => {
  it("is plain data with every null explained, and keeps its limits in order", () => {
    fc.assert(
      fc.property(CLUSTERS, ICC, INTERVAL, (clusters, planningIcc, interval) => {
        const found = compute(clustersProportion, { clusters }, { planningIcc, interval });
        expect(faultsOf(found)).toEqual([]);
        for (const { value, lower, upper } of Object.values(found.values.intervals)) {
          if (value === null || lower === null || upper === null) continue;
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(lower).toBeLessThanOrEqual(value + 1e-12);
          expect(upper).toBeGreaterThanOrEqual(value - 1e-12);
          expect(upper).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 400 },
    );
  });

  it("is mirrored when events and others change places, and does not mind the order", () => {
    fc.assert(
      fc.property(CLUSTERS, (clusters) => {
        const here = compute(clustersProportion, { clusters }).values;
        const mirrored = clusters.map(({ count, total }) => ({ count: total - count, total })).reverse();
        const there = compute(clustersProportion, { clusters: mirrored }).values;
        if (here.proportion.lower === null) return;
        const close = { relative: 1e-9, absolute: 1e-12 };
        expectClose(there.proportion.upper, 1 - here.proportion.lower, close, "upper");
        expectClose(there.designEffect, here.designEffect as number, close, "design effect");
        const icc = here.intraclusterCorrelation.anova;
        if (icc !== null) expectClose(there.intraclusterCorrelation.anova, icc, close, "icc");
      }),
      { numRuns: 200 },
    );
  });

  it("does not mind the number of copies of each person: twice the people say no more", () => {
    fc.assert(
      fc.property(CLUSTERS, (clusters) => {
        const here = compute(clustersProportion, { clusters }).values;
        const twice = clusters.map(({ count, total }) => ({ count: 2 * count, total: 2 * total }));
        const there = compute(clustersProportion, { clusters: twice }).values;
        if (here.standardError === null || here.designEffect === null) return;
        expectClose(there.standardError, here.standardError, { relative: 1e-9, absolute: 1e-15 });
        expectClose(there.designEffect, 2 * here.designEffect, { relative: 1e-9, absolute: 1e-15 });
      }),
      { numRuns: 200 },
    );
  });

  it("has the textbook variance of a mean of clusters of one size", () => {
    // Sample variance of the cluster proportions over the number of clusters.
    const counts = [9, 7, 10, 8, 5, 10, 9];
    const clusters = counts.map((count) => ({ count, total: 10 }));
    const mean = counts.reduce((sum, count) => sum + count / 10, 0) / 7;
    const variance = counts.reduce((sum, count) => sum + (count / 10 - mean) ** 2, 0) / 6;
    const { standardError } = compute(clustersProportion, { clusters }).values;
    expectClose(standardError, Math.sqrt(variance / 7), { relative: 1e-12 });
  });

  it("has for clusters of one person the variance of independent people, m / (m - 1) times", () => {
    const clusters = Array.from({ length: 50 }, (_, at) => ({ count: at < 47 ? 1 : 0, total: 1 }));
    const { values, notes } = compute(clustersProportion, { clusters });
    expectClose(values.designEffect, 50 / 49, { relative: 1e-12 });
    expect(notes.map(({ code }) => code)).toContain("singletons");
  });

  it("finds complete likeness, and likeness less than chance", () => {
    // Pairs that always agree: correlation 1. Pairs that never agree: -1. By definition.
    const alike = Array.from({ length: 20 }, (_, at) => ({ count: at % 2 === 0 ? 2 : 0, total: 2 }));
    const unlike = Array.from({ length: 20 }, () => ({ count: 1, total: 2 }));
    const both = [alike, unlike].map((clusters) => compute(clustersProportion, { clusters }));
    expectClose(both[0]?.values.intraclusterCorrelation.anova, 1, { relative: 1e-12 });
    expectClose(both[0]?.values.intraclusterCorrelation.fleissCuzick, 1, { relative: 1e-12 });
    expectClose(both[1]?.values.intraclusterCorrelation.anova, -1, { relative: 1e-12 });
    expectClose(both[1]?.values.intraclusterCorrelation.fleissCuzick, -1, { relative: 1e-12 });
    expect(both[1]?.values.designEffect).toBe(0);
    expect(both[1]?.values.effective.total).toBe(40);
    expect(both[1]?.notes.map(({ code }) => code)).toEqual(expect.arrayContaining(["below_one", "no_width"]));
  });

  it("takes Student's t with fewer than ten clusters, and says so", () => {
    const clusters = Array.from({ length: 9 }, (_, at) => ({ count: 10 + at, total: 20 }));
    const few = compute(clustersProportion, { clusters });
    expect(few.values.reference).toBe("t");
    expect(few.notes.map(({ code }) => code)).toContain("few_clusters");
    const enough = compute(clustersProportion, { clusters: [...clusters, { count: 10, total: 20 }] });
    expect(enough.values.reference).toBe("normal");
    expect(enough.notes).toEqual([]);
  });

  it.each([
    ["one cluster", [{ count: 9, total: 10 }], "one_cluster"],
    [
      "all right",
      [
        { count: 9, total: 9 },
        { count: 4, total: 4 },
      ],
      "no_variation",
    ],
    ["nothing", [{ count: 0, total: 0 }], "no_observations"],
  ] as const)("explains what it can't estimate: %s", (_, clusters, code) => {
    const found = compute(clustersProportion, { clusters: [...clusters] });
    expect(found.values.designEffect).toBeNull();
    expect(found.values.proportion.lower).toBeNull();
    expect(found.notes.map((entry) => entry.code)).toContain(code);
    expect(faultsOf(found)).toEqual([]);
  });

  it("names the cluster whose count is larger than its total", () => {
    const clusters = [
      { count: 1, total: 2 },
      { count: 3, total: 2 },
    ];
    expect(() => compute(clustersProportion, { clusters })).toThrow(
      "input.clusters.1.count: expected at most",
    );
  });
});
