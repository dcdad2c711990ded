import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { evaluatePlan } from "../../../src/evaluation/plan/evaluate-plan.ts";
import { parsePlan } from "../../../src/records/plan/parse-plan.ts";
import { type PlanText, planText, readable } from "./any-plan.ts";

const planned = (change: PlanText = {}) => evaluatePlan(readable(planText(change)), []);
const [CRITERION] = planText().criteria as [PlanText];
const two = (first: PlanText, second: PlanText) => ({
  criteria: [
    { ...CRITERION, ...first },
    { ...CRITERION, ...second },
  ],
});

/** Probability of at least so many of so many, added up term by term. */
function atLeast(count: number, total: number, share: number): number {
  return share > 0.5 ? atMost(total - count, total, 1 - share) : 1 - atMost(count - 1, total, share);
}

/** Begins with nobody, which is probable enough to be written where the share is at most a half. */
function atMost(count: number, total: number, share: number): number {
  let term = (1 - share) ** total;
  let sum = count < 0 ? 0 : term;
  for (let k = 1; k <= count; k++) {
    term *= ((total - k + 1) / k) * (share / (1 - share));
    sum += term;
  }
  return sum;
}

/**
 * The power of so many people by the definition of the exact interval: k of n shows "at least c" where so many
 * or more would have a probability of at most half the error, were c the truth.
 */
function exactPower(total: number, expected: number, threshold: number, level = 0.95): number {
  for (let k = 0; k <= total; k++) {
    if (atLeast(k, total, threshold) <= (1 - level) / 2) return atLeast(k, total, expected);
  }
  return 0;
}

function sizesByHand(expected: number, threshold: number, power: number, horizon: number, level = 0.95) {
  const reached = Array.from(
    { length: horizon },
    (_, at) => exactPower(at + 1, expected, threshold, level) >= power,
  );
  return { first: reached.indexOf(true) + 1, stays: reached.lastIndexOf(false) + 2 };
}

describe("a plan of one criterion", () => {
  const planning = planned();
  const [criterion] = planning.criteria;
  const byHand = sizesByHand(0.95, 0.8, 0.8, 150);

  it("has the size that adding up every result gives", () => {
    expect(criterion?.size.values.first.total).toBe(byHand.first);
    expect(criterion?.size.values.stays.total).toBe(byHand.stays);
    expect(criterion?.needed).toBe(byHand.stays);
    expect(criterion?.size.values.stays.power).toBeCloseTo(exactPower(byHand.stays, 0.95, 0.8), 12);
  });

  it("has the power of every total in its curve", () => {
    expect(criterion?.curve.map(({ total }) => total)).toEqual(
      Array.from({ length: Math.ceil(1.5 * byHand.stays) }, (_, at) => at + 1),
    );
    for (const { total, power } of criterion?.curve ?? [])
      expect(power).toBeCloseTo(exactPower(total, 0.95, 0.8), 10);
  });

  it("is enrolled for with the assurance, one person fewer not being enough", () => {
    const enrol = planning.answer.enrol as number;
    expect(atLeast(byHand.stays, enrol, 0.2)).toBeGreaterThanOrEqual(0.9);
    expect(atLeast(byHand.stays, enrol - 1, 0.2)).toBeLessThan(0.9);
    expect(planning.answer.deciding).toEqual({ analyte: "A1", of: "positives", because: "se" });
    expect(planning.answer.assuredTogether).toBeCloseTo(atLeast(byHand.stays, enrol, 0.2), 10);
  });

  it("leaves open what the plan does not say", () => {
    expect(planning).toMatchObject({
      together: null,
      effort: null,
      answer: { days: null, cost: null, jointPower: null },
    });
    expect(planning.notes.map(({ code }) => code)).toEqual(["no_sites", "independent_people"]);
  });
});

describe("losses, clusters, sites", () => {
  it("count only people with a usable pair, and only tested people for invalid results", () => {
    const recruitment = { assurance: 0.8, invalid: 0.1, lost: 0.2, unverified: 0.05 };
    const invalid = { id: "inv", measure: "invalid_rate", at_least: undefined, at_most: 0.2, expected: 0.05 };
    const { answer, enrolment } = planned({ recruitment, ...two({}, invalid) });
    const needed = sizesByHand(0.95, 0.8, 0.8, 150).stays;
    const share = 0.2 * 0.9 * 0.8 * 0.95;
    const enrol = answer.enrol as number;
    expect(atLeast(needed, enrol, share)).toBeGreaterThanOrEqual(0.8);
    expect(atLeast(needed, enrol - 1, share)).toBeLessThan(0.8);
    // "At most 5 % invalid" is the mirror image of "at least 95 % right": the same number, of tested people.
    expect(answer.byAnalyte[0]?.tested).toEqual({ needed, because: "inv" });
    const forTested = enrolment[0]?.forTested as number;
    expect(atLeast(needed, forTested, 0.8)).toBeGreaterThanOrEqual(0.8);
    expect(atLeast(needed, forTested - 1, 0.8)).toBeLessThan(0.8);
  });

  it("allow for people of a site being alike, as the formula by hand does", () => {
    const size = sizesByHand(0.95, 0.8, 0.8, 150).stays;
    const [bySize] = planned({ alike: { icc: 0.02, size: 10 } }).criteria;
    expect(bySize?.needed).toBe(Math.ceil(size * (1 + 9 * 0.02)));
    const [byClusters] = planned({ alike: { icc: 0.02, clusters: 8 } }).criteria;
    expect(byClusters?.needed).toBe(Math.ceil((size * 0.98) / (1 - (size * 0.02) / 8)));
  });

  it("take days and money from the sites", () => {
    const recruitment = { sites: [{ id: "S", title: "Site", per_day: 3 }] };
    const costs = {
      unit: "credits",
      fixed: 100,
      per_site: 50,
      per_day: 2,
      per_person: 1,
      per_kit: 4,
      per_reference: 3,
    };
    const { answer, effort } = planned({ recruitment, costs });
    const enrol = answer.enrol as number;
    expect(effort?.values.days.expected).toBeCloseTo(enrol / 3, 8);
    expect(answer.cost).toBeCloseTo(150 + (2 * enrol) / 3 + 8 * enrol, 6);
    expect(answer.days).toBeGreaterThan(enrol / 3);
  });
});

describe("several criteria", () => {
  const pair = two({}, { id: "sp", measure: "specificity" });

  it("each have their own power, or share the plan's where all must pass", () => {
    const shared = 0.8 ** 0.5;
    const each = planned(pair);
    const all = planned({ ...pair, decision: { control: "all_must_pass" } });
    expect(each.criteria.map(({ power, why }) => [power, why])).toEqual([
      [0.8, "own"],
      [0.8, "own"],
    ]);
    expect(all.criteria.map(({ why }) => why)).toEqual(["shared_independent", "shared_independent"]);
    expect(all.criteria[0]?.power).toBeCloseTo(shared, 14);
    expect(all.criteria[0]?.needed).toBe(sizesByHand(0.95, 0.8, shared, 150).stays);
    const powers = all.criteria.map(({ size }) => size.values.stays.power as number) as [number, number];
    const joint = all.answer.jointPower;
    expect(joint?.independent).toBeCloseTo(powers[0] * powers[1], 12);
    expect(joint?.independent).toBeGreaterThanOrEqual(0.8);
    expect(joint?.lowest).toBeCloseTo(powers[0] + powers[1] - 1, 12);
    expect(joint?.highest).toBe(Math.min(...powers));
    expect(all.together?.size?.values.independent.sizes[0]?.size).toEqual(all.criteria[0]?.size.values.stays);
    expect(all.together?.size?.values.guaranteed.eachPower).toBeCloseTo(0.9, 14);
  });

  it("share among those that can be shown, a criterion stating more itself keeping that", () => {
    const criteria = [
      CRITERION,
      { ...CRITERION, id: "hopeless", expected: 0.7 },
      { ...CRITERION, id: "sure", power: 0.99 },
      { ...CRITERION, id: "aside", importance: "secondary" },
    ];
    const { criteria: found, answer } = planned({ criteria, decision: { control: "all_must_pass" } });
    expect(found.map(({ power }) => power)).toEqual([0.8 ** 0.5, 0.8 ** 0.5, 0.99, 0.8]);
    expect(answer.criteria).toEqual({ planned: 3, out: ["hopeless"] });
  });

  it("under Holm's procedure are planned at its strictest level", () => {
    const { criteria } = planned({ ...pair, decision: { control: "holm" } });
    expect(criteria[0]).toMatchObject({ why: "holm", power: 0.8 });
    expect(criteria[0]?.size.options.level).toBeCloseTo(0.975, 14);
    expect(criteria[0]?.needed).toBe(sizesByHand(0.95, 0.8, 0.8, 150, 0.975).stays);
  });

  it("of two analytes count some people twice", () => {
    const analytes = [
      { id: "A1", title: "One", prevalence: { value: 0.2 } },
      { id: "A2", title: "Two", prevalence: { value: 0.3 } },
    ];
    const together = { correlation: 0.2, both_positive: 0.1 };
    const planning = planned({
      analytes,
      together,
      ...two({}, { id: "se2", analyte: "A2", expected: 0.96 }),
    });
    const totals = planning.criteria.map(({ size }) => size.values.stays.total as number) as [number, number];
    const [pairing] = planning.together?.pairs ?? [];
    expect(pairing?.shared).toBe(Math.round(Math.min((totals[0] * 0.1) / 0.2, (totals[1] * 0.1) / 0.3)));
    const joint = planning.answer.jointPower as { stated: number; independent: number };
    expect(joint.stated).toBe(pairing?.power.values.together.stated);
    expect(joint.stated).toBeGreaterThan(joint.independent);
  });
});

describe("what can't be planned", () => {
  it("asks for nobody, and says what to change", () => {
    const planning = planned({ criteria: [{ ...CRITERION, expected: 0.8 }] });
    expect(planning.criteria[0]).toMatchObject({ needed: null, atSize: null, curve: [], clustered: null });
    expect(planning.criteria[0]?.notes[0]).toMatchObject({ code: "not_beyond_threshold", path: "needed" });
    expect(planning.criteria[0]?.notes[0]?.message).toMatch(/no number of people can show it.*threshold/);
    expect(planning.answer).toMatchObject({
      enrol: null,
      deciding: null,
      criteria: { planned: 0, out: ["se"] },
    });
    expect(planning.notes.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["not_planned", "no_enrolment"]),
    );
  });

  it("names the sites that would do where there are too few", () => {
    const [criterion] = planned({ alike: { icc: 0.2, clusters: 3 } }).criteria;
    const least = Math.floor(0.2 * (criterion?.size.values.stays.total as number)) + 1;
    expect(criterion?.needed).toBeNull();
    expect(criterion?.clustered?.values.leastClusters).toBe(least);
    expect(criterion?.notes).toMatchObject([{ code: "too_few_sites", path: "needed" }]);
  });

  it("does not keep the rest from being planned", () => {
    const { answer } = planned(two({}, { id: "sp", measure: "specificity", expected: 0.5 }));
    expect(answer.criteria).toEqual({ planned: 1, out: ["sp"] });
    expect(answer.enrol).toBe(planned().answer.enrol);
  });
});

describe("comparisons", () => {
  const comparison = {
    id: "c",
    title: "Two kits",
    analyte: "A1",
    measure: "specificity",
    first: { title: "One", expected: 0.95 },
    second: { title: "Other", expected: 0.95 },
    margin: 0.1,
  };

  it("on the same people share them with the criteria", () => {
    const { answer, comparisons } = planned({
      comparisons: [{ ...comparison, design: "paired", discordant: 0.06 }],
    });
    expect(comparisons[0]).toMatchObject({
      kind: "noninferiority",
      groups: null,
      enrolment: null,
      of: "negatives",
    });
    expect(answer.byAnalyte[0]?.negatives).toEqual({ needed: comparisons[0]?.needed, because: "c" });
    expect(answer.beside).toEqual([]);
  });

  it("on different people enrol the second group besides, one kit's groups together", () => {
    const unpaired = { ...comparison, design: "unpaired" };
    const again = { ...unpaired, id: "d", margin: 0.15 };
    const { answer, comparisons } = planned({ comparisons: [unpaired, again] });
    const groups = comparisons[0]?.groups as { first: number; second: number };
    expect(comparisons[0]?.needed).toBe(groups.first + groups.second);
    expect(answer.byAnalyte[0]?.negatives).toEqual({ needed: groups.first, because: "c" });
    const [beside] = answer.beside;
    expect(beside).toMatchObject({ kit: "Other", comparisons: ["c", "d"] });
    const enrol = beside?.enrol as number;
    expect(atLeast(groups.second, enrol, 0.8)).toBeGreaterThanOrEqual(0.9);
    expect(atLeast(groups.second, enrol - 1, 0.8)).toBeLessThan(0.9);
    expect(answer.enrol).toBe((answer.byAnalyte[0]?.enrol as number) + enrol);
  });

  it("that nothing can show say why", () => {
    const worse = { ...comparison, design: "paired", first: { title: "One", expected: 0.8 } };
    const { answer, comparisons } = planned({ comparisons: [worse] });
    expect(answer.out).toEqual(["c"]);
    expect(comparisons[0]?.notes).toMatchObject([{ code: "beyond_margin", path: "needed" }]);
  });
});

describe("looks and other assumptions", () => {
  it("are followed through for a bad kit, one at the threshold, and a good one", () => {
    const stopping = [{ id: "s", design: "two_stage", criterion: "se", unacceptable: 0.75, largest: 80 }];
    const [rule] = planned({ stopping }).stopping;
    expect(rule?.confirmed.map(({ name }) => name)).toEqual(["smallestExpected", "minimax"]);
    for (const { rule: confirmed } of rule?.confirmed ?? []) {
      expect(confirmed.values.truths.map(({ truth }) => truth)).toEqual([0.75, 0.8, 0.95]);
      const [bad, , good] = confirmed.values.truths;
      expect(bad?.pass).toBeLessThanOrEqual(0.05);
      expect(good?.pass).toBeGreaterThanOrEqual(0.8);
    }
  });

  it("spread around the plan's own values, or are those stated", () => {
    const [around] = planned({ what_if: [{ criterion: "se" }] }).whatIf;
    expect(around?.grid.input).toMatchObject({
      expected: [0.89, 0.91, 0.93, 0.95, 0.97, 0.99],
      thresholds: [0.7, 0.8, 0.9],
      prevalences: [0.1, 0.2, 0.3],
    });
    const own = around?.grid.values.cells.find((cell) => cell.expected === 0.95 && cell.threshold === 0.8);
    expect(own?.stays).toBe(sizesByHand(0.95, 0.8, 0.8, 150).stays);
    const stated = { criterion: "se", expected: [0.9], thresholds: [0.7], prevalences: [] };
    expect(planned({ what_if: [stated] }).whatIf[0]?.grid.values.cells).toMatchObject([
      { expected: 0.9, threshold: 0.7, enrol: [] },
    ]);
  });
});

describe("the plan of the demonstration", () => {
  const bytes = readFileSync(join(resolve(import.meta.dirname, "../../.."), "data/plan/plan.yaml"));

  it("can be planned in all its parts", () => {
    const read = parsePlan({ name: "plan.yaml", bytes });
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    const { answer, criteria, agreement, stopping } = evaluatePlan(read.value, []);
    expect(answer).toMatchObject({ criteria: { planned: 5, out: [] }, out: [] });
    expect(answer.jointPower?.stated).toBeGreaterThanOrEqual(0.8);
    expect(agreement[0]?.size.values.total).toBeGreaterThan(0);
    expect(stopping.every(({ confirmed }) => confirmed.length > 0)).toBe(true);
    for (const { size } of criteria) {
      const { expected, threshold, direction } = size.input;
      if (direction !== "at_least") continue;
      const { power } = size.options;
      const { total } = size.values.stays as { total: number };
      expect(exactPower(total, expected, threshold)).toBeGreaterThanOrEqual(power);
      expect(exactPower(total - 1, expected, threshold)).toBeLessThan(power);
    }
  });
});
