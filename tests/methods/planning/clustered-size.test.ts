import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { clustersDesignEffect } from "../../../src/methods/clusters/design-effect.ts";
import { planningClusteredSize } from "../../../src/methods/planning/clustered-size.ts";
import { expectClose } from "../../tolerance.ts";

const bySize = (size: number) => ({ kind: "size", size }) as const;
const byClusters = (clusters: number) => ({ kind: "clusters", clusters }) as const;

/** What so many people in so many equal or unequal sites are worth, by the definition of the design effect. */
function worth(total: number, clusters: number, icc: number, cv: number): number {
  return total / (1 + (((cv ** 2 + 1) * total) / clusters - 1) * icc);
}

describe("planning.clustered_size", () => {
  it("is the design effect of clusters.design_effect where the people at a site are given", () => {
    for (const [total, size, icc, cv] of [
      [80, 50, 0.02, 0],
      [384, 20, 0.05, 0.4],
      [1000, 1, 0.3, 0],
      [77, 12.5, 0, 1.1],
    ] as const) {
      const { values } = compute(planningClusteredSize, { total, icc, cv, by: bySize(size) });
      const { unequal } = compute(clustersDesignEffect, { total, icc, cv, clusterSize: size }).values;
      expectClose(values.designEffect, unequal.designEffect as number, { relative: 1e-14 });
      expect([values.total, values.clusters]).toEqual([unequal.total, unequal.clusters]);
    }
  });

  it("is the first total worth enough where the sites are given, and none where there are too few", () => {
    for (const total of [10, 80, 333]) {
      for (const clusters of [1, 3, 7, 12, 40]) {
        for (const icc of [0, 0.01, 0.05, 0.2]) {
          for (const cv of [0, 0.7]) {
            const { values, notes } = compute(planningClusteredSize, {
              total,
              icc,
              cv,
              by: byClusters(clusters),
            });
            // However many people: at most k / ((cv² + 1) icc), by the limit of the definition.
            const most = clusters / ((cv ** 2 + 1) * icc);
            if (most <= total * (1 + 1e-12)) {
              expect(values.total).toBeNull();
              expect(values.leastClusters).toBeGreaterThan(clusters);
              expect(notes[0]?.message).toContain(`at least ${values.leastClusters}`);
              continue;
            }
            const found = values.total as number;
            if (found < clusters) {
              expect(values.clusterSize).toBe(1);
              continue;
            }
            expect(worth(found, clusters, icc, cv)).toBeGreaterThanOrEqual(total * (1 - 1e-10));
            if (found > clusters) expect(worth(found - 1, clusters, icc, cv)).toBeLessThan(total);
            expectClose(found / (values.designEffect as number), worth(found, clusters, icc, cv), {
              relative: 1e-12,
            });
          }
        }
      }
    }
  });

  it("names the fewest sites that would do: with them it can be had, with one fewer it can't", () => {
    for (const [total, icc, cv] of [
      [400, 0.02, 0],
      [300, 0.05, 0.6],
      [100, 0.07, 0],
      [9, 0.5, 0],
    ] as const) {
      const least = compute(planningClusteredSize, { total, icc, cv, by: byClusters(1) }).values
        .leastClusters as number;
      const at = (clusters: number) =>
        compute(planningClusteredSize, { total, icc, cv, by: byClusters(clusters) }).values;
      expect(at(least).total).not.toBeNull();
      expect(at(least - 1).total).toBeNull();
    }
  });

  it("puts one person at each site where there are more sites than people", () => {
    const { values, notes } = compute(planningClusteredSize, { total: 20, icc: 0.1, by: byClusters(50) });
    expect(values).toMatchObject({ designEffect: 1, total: 20, clusters: 20, clusterSize: 1 });
    expect(notes.map(({ code }) => code)).toEqual(["more_sites_than_people"]);
  });

  it("refuses wrong arguments by name", () => {
    expect(() => compute(planningClusteredSize, { total: 0, icc: 0.1, by: bySize(5) })).toThrow(
      /input.total/,
    );
    expect(() => compute(planningClusteredSize, { total: 9, icc: 1.1, by: bySize(5) })).toThrow(/input.icc/);
    expect(() => compute(planningClusteredSize, { total: 9, icc: 0.1, by: bySize(0.5) })).toThrow(/by.size/);
    expect(() => compute(planningClusteredSize, { total: 9, icc: 0.1, by: byClusters(0) })).toThrow(
      /by.clusters/,
    );
  });
});
