import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { people, person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

const strata = [{ id: "site", title: "Site", column: "site", planned: true }];

function evaluated(pairs: readonly Pair[], study: Partial<Study> = { cluster: "site", strata }) {
  return evaluate(tinyRecords([setOf(pairs)], { study }), tinyInputs);
}

/** So many reactive of so many reference-positive people at one site. */
function site(name: string | null, reactive: number, total: number): Pair[] {
  const at = { reference: "positive" as const, strata: { site: name } };
  return [
    ...people(reactive, { rapid: "reactive", ...at }),
    ...people(total - reactive, { rapid: "nonreactive", ...at }),
  ];
}

const four = [...site("a", 9, 10), ...site("b", 18, 20), ...site("c", 5, 10), ...site("d", 27, 30)];

describe("people who are alike within a cluster", () => {
  const [sensitivity] = evaluated(four).clustered;

  it("are counted cluster by cluster", () => {
    expect(sensitivity).toMatchObject({
      measure: "sensitivity",
      cluster: "Site",
      clusters: 4,
      plain: { count: 59, total: 70 },
    });
    // NumPy: m / (m - 1) * sum (count - p total)² / N², over p (1 - p) / N; Student's t with 3 degrees of freedom.
    expect(sensitivity?.designEffect).toBeCloseTo(2.347934551324382, 10);
    expect(sensitivity?.ratioEstimator.lower).toBeCloseTo(0.6307382426734143, 10);
    expect(sensitivity?.ratioEstimator.upper).toBe(1);
    expect(sensitivity?.effectiveTotal).toBeCloseTo(29.813437499999996, 10);
    // NumPy: analysis of variance, (MSB - MSW) / (MSB + (n0 - 1) MSW).
    expect(sensitivity?.intraclusterCorrelation).toBeCloseTo(0.14830199448267123, 10);
  });

  it("have a wider interval than independent people", () => {
    const { plain, effective, bootstrap } = sensitivity ?? {};
    expect(effective?.value).toBe(plain?.value);
    expect(effective?.lower ?? 1).toBeLessThan(plain?.lower ?? 0);
    expect(effective?.upper ?? 0).toBeGreaterThan(plain?.upper ?? 1);
    // No redrawn proportion can lie outside those of the clusters, 5/10 and 9/10.
    expect(bootstrap?.lower ?? 0).toBeGreaterThanOrEqual(0.5);
    expect(bootstrap?.upper ?? 1).toBeLessThanOrEqual(0.9);
  });

  it("take Wilson's interval where the study file does", () => {
    const wilson = { cluster: "site", strata, interval: { method: "wilson" as const, level: 0.95 } };
    const [same] = evaluated(four, wilson).clustered;
    expect(same?.effective.lower ?? 0).toBeGreaterThan(sensitivity?.effective.lower ?? 1);
  });

  it("give the same redrawn limits again, and others for another seed", () => {
    const limits = (seed: number) =>
      evaluated(four, { cluster: "site", strata, seed }).clustered[0]?.bootstrap;
    expect(limits(1)).toEqual(sensitivity?.bootstrap);
    const seeds = [2, 3, 4, 5].map((seed) => JSON.stringify(limits(seed)));
    expect(seeds.some((one) => one !== JSON.stringify(sensitivity?.bootstrap))).toBe(true);
  });

  it("are one cluster where the cluster is not recorded, and it is said", () => {
    const [found] = evaluated([...four, ...site(null, 3, 3)]).clustered;
    expect(found).toMatchObject({ clusters: 5, plain: { count: 62, total: 73 } });
    expect(found?.notes.map(({ code }) => code)).toContain("cluster_not_recorded");
  });
});

describe("clusters that say little", () => {
  it("are no section where the study file names none", () => {
    expect(evaluated(four, { strata }).clustered).toEqual([]);
  });

  it("are no section where every person is one", () => {
    expect(evaluated(four, { cluster: "person" }).clustered).toEqual([]);
  });

  it("are persons where somebody counts twice", () => {
    const twice = [
      ...four,
      person({ person: "again", rapid: "reactive", reference: "positive" }),
      person({ person: "again", rapid: "reactive", reference: "positive" }),
    ];
    const [found] = evaluated(twice, { cluster: "person" }).clustered;
    expect(found).toMatchObject({ cluster: "Person", clusters: 71, plain: { total: 72 } });
  });

  it.each([
    ["one cluster", site("a", 9, 10)],
    ["everybody right", [...site("a", 5, 5), ...site("b", 6, 6)]],
    ["nobody", []],
    ["one person", site("a", 1, 1)],
    ["clusters all alike", [...site("a", 3, 4), ...site("b", 3, 4), ...site("c", 3, 4)]],
    ["invalid results only", people(3, { rapid: "invalid", reference: "positive", strata: { site: "a" } })],
  ])("%s: notes, no number that is none", (_, pairs) => {
    const evaluation = evaluated(pairs);
    expect(writeEvaluation(evaluation)).not.toMatch(/NaN|Infinity/);
    for (const entry of evaluation.clustered) expect(entry.notes).not.toEqual([]);
  });

  it("say why there is no design effect", () => {
    const [found] = evaluated([...site("a", 5, 5), ...site("b", 6, 6)]).clustered;
    expect(found?.designEffect).toBeNull();
    expect(found?.notes.find(({ path }) => path === "designEffect")?.code).toBe("no_variation");
    expect(found?.plain.lower).toBeGreaterThan(0.7);
  });

  it("bear the name that the study file gives where no stratum has it", () => {
    expect(evaluated(four, { cluster: "lost", strata: [] }).clustered[0]?.cluster).toBe("lost");
  });
});
