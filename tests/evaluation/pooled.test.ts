import { readFileSync } from "node:fs";
import library from "jstat";
import { describe, expect, it } from "vitest";
import type { Pooled } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { expectClose } from "../tolerance.ts";
import { people, person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

type Counts = readonly [number, number, number, number];

const strata: Study["strata"] = [
  { id: "site", title: "Site", column: "site", planned: true },
  { id: "kind", title: "Kind of site", column: "kind", planned: true },
];
const criterion = (id: string, measure: "sensitivity" | "specificity", at_least: number) => ({
  id,
  analyte: "one",
  measure,
  at_least,
  rule: "interval" as const,
  importance: "primary" as const,
  source: "made up",
});
const CRITERIA = [criterion("se", "sensitivity", 0.8), criterion("sp", "specificity", 0.9)];

/** One site: true positives, false positives, false negatives, true negatives, each as one row of people. */
function site(name: string | null, counts: Counts, kind: string | null = null): Pair[] {
  const cells = [
    ["reactive", "positive"],
    ["reactive", "negative"],
    ["nonreactive", "positive"],
    ["nonreactive", "negative"],
  ] as const;
  return cells.flatMap(([rapid, reference], at) => {
    const weight = counts[at] ?? 0;
    return weight === 0 ? [] : [person({ rapid, reference, weight, strata: { site: name, kind } })];
  });
}

function evaluated(pairs: readonly Pair[], study: Partial<Study> = {}) {
  const records = tinyRecords([setOf(pairs)], {
    study: { strata, pooling: { by: "site" }, criteria: CRITERIA, ...study },
  });
  return { records, document: evaluate(records, tinyInputs) };
}

function only({ document }: ReturnType<typeof evaluated>): Pooled {
  const [first] = document.pooled;
  if (first === undefined || document.pooled.length > 1) throw new Error("not one cell");
  return first;
}

/** R 4.2.2, the likelihood written out and maximised there; see tests/reference/README.md. */
interface Fit {
  readonly name: string;
  readonly kind: string;
  readonly rows: readonly Counts[];
  readonly means: readonly [number, number];
  readonly spread: readonly [number, number, number];
  readonly covariance: readonly [number, number, number];
  readonly sensitivityLimits: readonly [number, number];
  readonly specificityLimits: readonly [number, number];
}
const { fits } = JSON.parse(
  readFileSync(new URL("../reference/second-opinion-pooling-bivariate.json", import.meta.url), "utf8"),
) as { fits: readonly Fit[] };
const twelve = fits.find(({ name, kind }) => name === "twelve" && kind === "binomial") as Fit;
/** The table there has false negatives before false positives. */
const ROWS = twelve.rows.map(([found, missed, false_, clear]): Counts => [found, false_, missed, clear]);
const TWELVE = ROWS.flatMap((counts, at) => site(`S${10 + at}`, counts));
const proportion = (logit: number) => 1 / (1 + Math.exp(-logit));

describe("sites pooled by a model", () => {
  const found = evaluated([...TWELVE, ...site("Z", [0, 0, 0, 0])]);
  const pooled = only(found);

  it("gives the middle and spread that R gives for the same counts", () => {
    const { summary, betweenStudies } = pooled.bivariate ?? {};
    expectClose(summary?.sensitivity.logit.value, twelve.means[0], { absolute: 2e-4 });
    expectClose(summary?.specificity.logit.value, twelve.means[1], { absolute: 2e-4 });
    expectClose(betweenStudies?.sensitivity.value, twelve.spread[0], { absolute: 5e-4 });
    expectClose(betweenStudies?.correlation.value, twelve.spread[2], { absolute: 2e-3 });
    // Profile limits.
    const { lower, upper } = summary?.sensitivity.proportion ?? {};
    expectClose(lower, proportion(twelve.sensitivityLimits[0]), { absolute: 2e-4 });
    expectClose(upper, proportion(twelve.sensitivityLimits[1]), { absolute: 2e-4 });
    expect(pooled.preferred).toEqual({ sensitivity: "bivariate", specificity: "bivariate" });
  });

  it("stands beside simple sums, each site with its counts", () => {
    const sum = (at: number) => ROWS.reduce((total, row) => total + (row[at] ?? 0), 0);
    expect(pooled.together.sensitivity).toMatchObject({ count: sum(0), total: sum(0) + sum(2) });
    expect(pooled.together.specificity).toMatchObject({ count: sum(3), total: sum(3) + sum(1) });
    expect(pooled.groups.map(({ counts }) => Object.values(counts))).toEqual(ROWS);
    expect(pooled.groups[0]?.sensitivity).toMatchObject({ count: 45, total: 50 });
    expect(pooled.people).toBe(sum(0) + sum(1) + sum(2) + sum(3));
  });

  it("judges criteria on the middle and on what another site may see", () => {
    const [se] = pooled.criteria;
    // By hand: t with 12 - 2 degrees of freedom of (middle - logit 0.8) over the root of both variances, R's figures.
    const away = (twelve.means[0] - Math.log(4)) / Math.sqrt(twelve.covariance[0] + twelve.spread[0] ** 2);
    expectClose(se?.newGroup.chance, library.jStat.studentt.cdf(away, 10), { absolute: 1e-3 });
    expect(se).toMatchObject({ criterion: "se", naive: "met", by: "bivariate" });
    expect(se?.summary).toBe(proportion(twelve.sensitivityLimits[0]) >= 0.8 ? "met" : "undecided");
    expect(se?.newGroup.verdict).toBe("undecided");
  });

  it("the chance and the prediction interval come from one distribution", () => {
    const lower = pooled.bivariate?.prediction.specificity.lower ?? 0;
    const at = evaluated(TWELVE, { criteria: [criterion("at", "specificity", lower)] });
    expectClose(only(at).criteria[0]?.newGroup.chance, 0.975, { absolute: 1e-6 });
  });

  it("warns where sites differ by more than chance and all people together meet what another site may not", () => {
    const warning = found.document.warnings.find(
      (one) => one.code === "groups_differ" && one.facts.measure === "sensitivity",
    );
    expect(warning).toMatchObject({
      by: "Site",
      facts: {
        criterion: { id: "se", naive: "met", chance: pooled.criteria[0]?.newGroup.chance },
        together: pooled.together.sensitivity.value,
        predictedLower: pooled.bivariate?.prediction.sensitivity.lower,
      },
    });
  });

  it("leaves each site out in turn, judged by the figures of the criteria", () => {
    expect(pooled.influenceCriterion).toEqual({ sensitivity: 0.8, specificity: 0.9 });
    expect(pooled.influence?.without).toHaveLength(12);
    const rest = only(evaluated(TWELVE.filter(({ strata: at }) => at.site !== "S10")));
    expectClose(
      pooled.influence?.without[0]?.sensitivity.value,
      rest.bivariate?.summary.sensitivity.proportion.value as number,
      { relative: 1e-6 },
    );
  });

  it("writes tables and reads itself back", () => {
    const { records, document } = found;
    expect(readEvaluation(JSON.parse(writeEvaluation(document)))).toEqual(document);
    const tables = evaluationTables(document, records).filter(({ name }) => name.startsWith("pooled"));
    expect(tables.map(({ name, rows }) => [name, rows.length])).toEqual([
      ["pooled_groups", 24],
      ["pooled", 6],
      ["pooled_criteria", 2],
    ]);
    for (const { columns, rows } of tables)
      expect(rows.every((row) => row.length === columns.length)).toBe(true);
  });
});

describe("one-sided and point rules", () => {
  it("take their own limits of the middle", () => {
    const limits = only(evaluated(TWELVE)).bivariate?.summary.sensitivity.proportion;
    const between = ((limits?.lower ?? 0) + (limits?.value ?? 0)) / 2;
    const judged = (rule: "interval" | "one_sided" | "point", at_least: number) =>
      only(evaluated(TWELVE, { criteria: [{ ...criterion("c", "sensitivity", at_least), rule }] }))
        .criteria[0]?.summary;
    expect(judged("point", between)).toBe("met");
    expect(judged("interval", between)).toBe("undecided");
    // Just above the two-sided limit: the one-sided one lies higher.
    const just = (limits?.lower ?? 0) + 1e-4;
    expect([judged("interval", just), judged("one_sided", just)]).toEqual(["undecided", "met"]);
  });
});

describe("who is pooled", () => {
  it("everybody is in a group's table or left out with the reason", () => {
    const pairs = [
      ...site("A", [9, 1, 1, 40]),
      ...site("B", [8, 2, 2, 30]),
      ...people(3, { rapid: "invalid", reference: "positive", strata: { site: "A" } }),
      ...people(2, { rapid: "reactive", reference: "not_done", strata: { site: "B" } }),
      ...people(4, { rapid: "not_done", reference: "positive", strata: { site: "C" } }),
      ...people(5, { rapid: "reactive", reference: "positive", strata: { site: null } }),
    ];
    const pooled = only(evaluated(pairs));
    expect(pooled.people).toBe(51 + 42 + 3 + 2 + 4 + 5);
    expect(pooled.groups.map(({ label, people: n }) => [label, n])).toEqual([
      ["A", 51],
      ["B", 42],
    ]);
    expect(pooled.leftOut).toEqual([
      { label: "C", reason: "nobody_counted", people: 4 },
      { label: null, reason: "not_recorded", people: 5 },
      { label: null, reason: "invalid", people: 3 },
      { label: null, reason: "reference_not_done", people: 2 },
    ]);
    const sum = [...pooled.groups, ...pooled.leftOut].reduce((total, { people: n }) => total + n, 0);
    expect(sum).toBe(pooled.people);
  });

  it("two sites have no prediction; one has no model; none is said", () => {
    const two = only(evaluated([...site("A", [9, 1, 1, 40]), ...site("B", [8, 2, 2, 30])]));
    expect(two.criteria[0]?.newGroup).toEqual({
      prediction: { value: expect.any(Number), lower: null, upper: null },
      verdict: "not_estimable",
      chance: null,
    });
    const one = only(evaluated(site("A", [9, 1, 1, 40])));
    expect(one.preferred).toEqual({ sensitivity: null, specificity: null });
    expect(one.criteria[0]).toMatchObject({ summary: "not_estimable", by: null });
    expect(one.notes.map(({ code }) => code)).toContain("too_few_studies");
    const none = only(evaluated(site(null, [9, 1, 1, 40])));
    expect(none).toMatchObject({ groups: [], bivariate: null, people: 51 });
    expect(none.notes).toMatchObject([{ code: "no_observations", path: "groups" }]);
  });

  it("few sites are read measure by measure, and a spread at its border is warned of", () => {
    const alike = ["A", "B", "C", "D"].flatMap((name) => site(name, [45, 5, 5, 95]));
    const found = evaluated(alike);
    const pooled = only(found);
    expect(pooled.preferred).toEqual({ sensitivity: "univariate", specificity: "univariate" });
    // Exactly alike: the middle is the common share, 0.9 and 0.95.
    expectClose(pooled.criteria[0]?.summaryEstimate.value, 0.9, { absolute: 1e-6 });
    expect(found.document.warnings).toMatchObject([
      { code: "pooling_boundary", facts: { groups: 4, at: ["sensitivity", "specificity"] } },
    ]);
  });

  it("without pooling in the study file nothing of it is reckoned", () => {
    const records = tinyRecords([setOf(TWELVE)], { study: { strata } });
    const document = evaluate(records, tinyInputs);
    expect(document.pooled).toEqual([]);
    expect(document.provenance.methods.some(({ id }) => /^(pooling|roc)\./.test(id))).toBe(false);
    const { pooled: _, intensities: __, panels: ___, warnings: ____, ...older } = document;
    expect(readEvaluation(older)).toMatchObject({ pooled: [], intensities: [], panels: [], warnings: [] });
  });
});

describe("a covariate of sites", () => {
  const kinds = ["clinic", "hospital"];
  const pairs = (kindOf: (at: number) => string | null) =>
    ROWS.flatMap((counts, at) => site(`S${10 + at}`, counts, kindOf(at)));
  const pooling = { by: "site", covariate: "kind" };

  it("that is one for each site gives a middle for each of its levels", () => {
    const pooled = only(
      evaluated(
        pairs((at) => kinds[at % 2] ?? null),
        { pooling },
      ),
    );
    expect(pooled.covariate).toEqual({ stratum: "kind", title: "Kind of site" });
    expect(pooled.groups.slice(0, 2).map(({ level }) => level)).toEqual(kinds);
    expect(pooled.bivariate?.covariate?.levels.map(({ label, studies }) => [label, studies])).toEqual([
      ["clinic", 6],
      ["hospital", 6],
    ]);
    // R 4.2.2, likelihood-ratio test of both measures with these levels (1 and 2 in turn).
    const tests = (twelve as Fit & { readonly tests: readonly number[] }).tests;
    expectClose(pooled.bivariate?.covariate?.both.chiSquare, tests[0] as number, { absolute: 2e-3 });
  });

  it.each<[string, (at: number) => string | null, string]>([
    ["not recorded for some", (at) => (at === 3 ? null : "clinic"), "covariate_varies"],
    ["the same everywhere", () => "clinic", "one_level"],
  ])("is left off where it is %s, and a note says so", (_, kindOf, code) => {
    const pooled = only(evaluated(pairs(kindOf), { pooling }));
    expect(pooled.covariate).toBeNull();
    expect(pooled.groups.every(({ level }) => level === null)).toBe(true);
    expect(pooled.notes[0]).toMatchObject({ code, path: "covariate" });
  });

  it("that varies within a site is left off", () => {
    const mixed = [...pairs(() => "clinic"), ...site("S10", [1, 0, 0, 1], "hospital")];
    const { covariate, notes } = only(evaluated(mixed, { pooling }));
    expect(covariate).toBeNull();
    expect(notes[0]?.message).toMatch(/S10 \(clinic, hospital\)/);
  });
});
