import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningKappa } from "../../../src/methods/planning/kappa.ts";
import { planningPairedDifference } from "../../../src/methods/planning/paired-difference.ts";
import { planningPairedNoninferiority } from "../../../src/methods/planning/paired-noninferiority.ts";
import { marginPower } from "../../../src/methods/planning/two-group-power.ts";
import { planningUnpairedDifference } from "../../../src/methods/planning/unpaired-difference.ts";
import type { DifferenceMethod } from "../../../src/methods/proportion/difference-interval.ts";
import { expectClose } from "../../tolerance.ts";

/**
 * Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-planning-comparing.R`: every result
 * added up one by one, at every total up to the horizon.
 */
interface Sizes {
  readonly first: number;
  readonly second: number;
  readonly horizon: number;
  readonly formula: number | null;
  readonly firstTotal: number | null;
  readonly stays: number | null;
  readonly powerBefore: number | null;
}
interface Paired extends Sizes {
  readonly discordant: number;
  readonly power: number | null;
}
interface GroupMargin {
  readonly first: number;
  readonly second: number;
  readonly margin: number;
  readonly method: DifferenceMethod;
  readonly total: number;
  readonly others: number;
  readonly power: number;
}
interface Readers {
  readonly kappa: number;
  readonly reactiveFirst: number;
  readonly reactiveSecond: number;
  readonly halfWidth: number;
  readonly unrounded: number;
  readonly total: number;
  readonly draws: number;
  readonly meanHalfWidth: number;
  readonly coverage: number;
  readonly asPrecise: number;
  readonly withoutInterval: number;
}
interface Opinion {
  readonly paired: readonly (Paired & { test: "mcnemar" | "mcnemar_exact" | "mcnemar_mid_p" })[];
  readonly pairedMargins: readonly (Paired & { margin: number })[];
  readonly groups: readonly (Sizes & {
    ratio: number;
    power: number;
    test: "fisher" | "pearson";
    powerThen: number | null;
  })[];
  readonly groupMargins: readonly GroupMargin[];
  readonly kappa: readonly Readers[];
}
const file = new URL("../../reference/second-opinion-planning-comparing.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Opinion;

function expectSame(actual: number | null, expected: number | null, relative: number, what: string) {
  if (expected === null) expect(actual, what).toBeNull();
  else expectClose(actual, expected, { relative }, what);
}

const named = <Row extends object>(rows: readonly Row[]) =>
  rows.map((row) => [Object.values(row).slice(0, 5).join(" "), row] as const);

describe("a difference on the same people", () => {
  it.each(named(opinion.paired))("%s", (_, row) => {
    const { first, second, discordant, test, horizon } = row;
    const { values } = compute(planningPairedDifference, { first, second, discordant }, { test, horizon });
    expectSame(values.formula.unrounded, row.formula, 1e-10, "formula");
    expect(values.exact.first).toBe(row.firstTotal);
    expect(values.exact.stays).toBe(row.stays);
    expectSame(values.exact.power, row.power, 1e-10, "power");
    expectSame(values.exact.powerBefore, row.powerBefore, 1e-10, "power before");
  });
});

describe("non-inferiority on the same people", () => {
  it.each(named(opinion.pairedMargins))("%s", (_, row) => {
    const { first, second, discordant, margin, horizon } = row;
    const kits = { first, second, discordant, margin };
    const { values } = compute(planningPairedNoninferiority, kits, { horizon });
    expectSame(values.formula.unrounded, row.formula, 1e-10, "formula");
    expect(values.exact.first).toBe(row.firstTotal);
    expect(values.exact.stays).toBe(row.stays);
    expectSame(values.exact.power, row.power, 1e-10, "power");
    expectSame(values.exact.powerBefore, row.powerBefore, 1e-10, "power before");
  });
});

describe("a difference of two groups", () => {
  it.each(named(opinion.groups))("%s", (_, row) => {
    const { first, second, ratio, power, test, horizon } = row;
    const { values } = compute(
      planningUnpairedDifference,
      { first, second, ratio },
      { power, test, horizon },
    );
    if (row.formula !== null) expectSame(values.formula.unrounded, row.formula, 1e-8, "formula");
    expect(values.exact.first).toBe(row.firstTotal);
    expect(values.exact.stays).toBe(row.stays);
    expectSame(values.exact.power, row.powerThen, 1e-10, "power");
    expectSame(values.exact.powerBefore, row.powerBefore, 1e-10, "power before");
  });
});

describe("non-inferiority of two groups", () => {
  it.each(named(opinion.groupMargins))("%s", (_, row) => {
    const { first, second, margin, method, total, others } = row;
    const groups = { first: { share: first, total }, second: { share: second, total: others } };
    // R leaves out pairs of counts less probable than 1e-16 each, about 1e-12 in all.
    expectClose(marginPower(groups, margin, method, 0.95), row.power, { relative: 1e-11 }, "power");
  });
});

describe("kappa", () => {
  it.each(named(opinion.kappa))("%s", (_, row) => {
    const { kappa, reactiveFirst, reactiveSecond, halfWidth } = row;
    const readers = { kappa, reactiveFirst, reactiveSecond, halfWidth };
    const draws = 20_000;
    const { values } = compute(planningKappa, readers, { draws });
    // R's derivatives are numeric, with steps of 1e-5.
    expectClose(values.unrounded, row.unrounded, { relative: 1e-7 }, "unrounded");
    expect(values.total).toBe(row.total);
    // Two simulations of 20,000 studies each: within four standard errors of their difference.
    const near = (share: number) => ({ absolute: 4 * Math.sqrt((2 * share * (1 - share)) / draws) + 1e-4 });
    const { simulated } = values;
    expectClose(simulated.coverage, row.coverage, near(row.coverage), "coverage");
    expectClose(simulated.asPrecise, row.asPrecise, near(row.asPrecise), "as precise");
    expectClose(simulated.withoutInterval, row.withoutInterval, near(row.withoutInterval), "no interval");
    expectClose(simulated.halfWidth, row.meanHalfWidth, { relative: 0.01 }, "mean half-width");
  });
});
