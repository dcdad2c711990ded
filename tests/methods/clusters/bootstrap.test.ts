import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { clustersBootstrap } from "../../../src/methods/clusters/bootstrap.ts";
import { clusterReplicates, differenceReplicates } from "../../../src/methods/clusters/cluster-replicates.ts";
import { clustersIdealBootstrap } from "../../../src/methods/clusters/ideal-bootstrap.ts";
import { clustersProportion } from "../../../src/methods/clusters/proportion.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

const CLUSTERS = fc.array(
  fc
    .record({ total: fc.integer({ min: 0, max: 20 }), part: fc.double({ min: 0, max: 1, noNaN: true }) })
    .map(({ total, part }) => ({ count: Math.round(part * total), total })),
  { minLength: 1, maxLength: 12 },
);
const SITES = [30, 41, 17, 25, 9].map((count, at) => ({ count, total: [32, 45, 25, 26, 14][at] ?? 0 }));
const people = (right: number, all: number) =>
  Array.from({ length: all }, (_, at) => ({ count: at < right ? 1 : 0, total: 1 }));

describe("replicates", () => {
  it("do not depend on how they are split", () => {
    const whole = clusterReplicates(SITES, 0, 300, 9);
    const apart = differenceReplicates(SITES, [...SITES].reverse(), "same", 0, 300, 9);
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 299 }), { maxLength: 6 }), (cuts) => {
        const edges = [0, ...cuts.sort((one, other) => one - other), 300];
        const parts = edges.slice(1).map((to, at) => [edges[at] ?? 0, to] as const);
        const joined = parts.flatMap(([from, to]) => [...clusterReplicates(SITES, from, to, 9)]);
        expect(joined).toEqual([...whole]);
        const differences = parts.flatMap(([from, to]) => [
          ...differenceReplicates(SITES, [...SITES].reverse(), "same", from, to, 9),
        ]);
        expect(differences).toEqual([...apart]);
      }),
      { numRuns: 30 },
    );
  });

  it("draw every cluster equally often, two places from one number included", () => {
    // Only one cluster counts: its share of all draws is 1 / m. 4 standard errors of 20,000 draws a cluster.
    for (const size of [2, 3, 7]) {
      for (let marked = 0; marked < size; marked += 1) {
        const clusters = Array.from({ length: size }, (_, at) => ({
          count: at === marked ? 1 : 0,
          total: 1,
        }));
        const drawn = clusterReplicates(clusters, 0, 20_000, 3);
        const mean = drawn.reduce((sum, share) => sum + share, 0) / 20_000;
        const error = Math.sqrt(((1 / size) * (1 - 1 / size)) / (20_000 * size));
        expect(Math.abs(mean - 1 / size)).toBeLessThan(4 * error);
      }
    }
  });

  it("are another set with another seed, the same with the same", () => {
    expect([...clusterReplicates(SITES, 0, 50, 1)]).toEqual([...clusterReplicates(SITES, 0, 50, 1)]);
    expect([...clusterReplicates(SITES, 0, 50, 1)]).not.toEqual([...clusterReplicates(SITES, 0, 50, 2)]);
  });
});

describe("the cluster bootstrap", () => {
  it("is plain data with every null explained", () => {
    fc.assert(
      fc.property(CLUSTERS, fc.option(CLUSTERS), (clusters, second) => {
        const found = compute(clustersBootstrap, { clusters, second }, { replicates: 100 });
        expect(faultsOf(found)).toEqual([]);
      }),
      { numRuns: 200 },
    );
    fc.assert(
      fc.property(CLUSTERS, (clusters) => {
        const second = [...clusters].reverse();
        const found = compute(clustersBootstrap, { clusters, second }, { replicates: 100, design: "same" });
        expect(faultsOf(found)).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  it("of single people comes near the bootstrap by listing: error within 3 %, limits within 1 / n", () => {
    const clusters = people(96, 104);
    const { values } = compute(clustersBootstrap, { clusters });
    const ideal = compute(clustersIdealBootstrap, { first: { count: 96, total: 104 } }).values;
    const apart = (values.standardError ?? 0) / (ideal.standardError ?? 1) - 1;
    expect(Math.abs(apart)).toBeLessThan(0.03);
    for (const side of ["lower", "upper"] as const) {
      const distance = (values.percentile[side] ?? 9) - (ideal.percentile[side] ?? 0);
      expect(Math.abs(distance)).toBeLessThan(1 / 104 + 1e-12);
    }
  });

  it("has over many clusters the standard error of the ratio estimator, but for m / (m - 1)", () => {
    const clusters = Array.from({ length: 60 }, (_, at) => ({ count: 20 - (at % 7), total: 20 + (at % 3) }));
    const ratio = compute(clustersProportion, { clusters }).values.standardError ?? 0;
    const { standardError } = compute(clustersBootstrap, { clusters }).values;
    expect(Math.abs((standardError ?? 0) / (ratio * Math.sqrt(59 / 60)) - 1)).toBeLessThan(0.03);
  });

  it("of a difference in the same clusters keeps what the sides share", () => {
    const { values } = compute(clustersBootstrap, { clusters: SITES, second: SITES }, { design: "same" });
    expect(values.percentile).toEqual({ value: 0, lower: 0, upper: 0 });
    expect(values.bca.lower).toBeNull();
    const apart = compute(clustersBootstrap, { clusters: SITES, second: SITES }).values;
    expect(apart.standardError).toBeGreaterThan(0.05);
  });
});

describe("the bootstrap by listing", () => {
  it("has limits with at least the share asked for at or below them, by adding up the masses", () => {
    for (const [count, total] of [
      [3, 9],
      [17, 20],
      [1, 40],
    ] as const) {
      const { percentile } = compute(clustersIdealBootstrap, { first: { count, total } }).values;
      const masses = binomialMasses(total, count / total);
      const below = (limit: number) =>
        masses.slice(0, Math.round(limit * total) + 1).reduce((sum, mass) => sum + mass, 0);
      for (const [limit, share] of [
        [percentile.lower ?? -1, 0.025],
        [percentile.upper ?? -1, 0.975],
      ] as const) {
        expect(below(limit)).toBeGreaterThanOrEqual(share);
        expect(below(limit - 1 / total)).toBeLessThan(share);
      }
    }
  });

  it("refuses more pairs of results than it lists", () => {
    const first = { count: 1, total: 3000 };
    expect(() => compute(clustersIdealBootstrap, { first, second: first })).toThrow("at most 4000000 pairs");
  });
});
