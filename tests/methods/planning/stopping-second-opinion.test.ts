import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningGroupSequential } from "../../../src/methods/planning/group-sequential.ts";
import { type Spending, spentBy } from "../../../src/methods/planning/spending.ts";
import { planningStoppingRule } from "../../../src/methods/planning/stopping-rule.ts";
import { planningTwoStage } from "../../../src/methods/planning/two-stage.ts";
import { expectClose } from "../../tolerance.ts";

type Row = readonly (number | null)[];
interface Opinion {
  readonly twoStage: readonly {
    readonly unacceptable: number;
    readonly expected: number;
    readonly error: number;
    readonly power: number;
    readonly largest: number;
    readonly smallestExpected: Row;
    readonly minimax: Row;
    readonly single: Row;
  }[];
  readonly spending: readonly {
    readonly spending: Spending;
    readonly error: number;
    readonly shares: readonly number[];
    readonly spent: readonly number[];
  }[];
  readonly sequential: readonly {
    readonly fractions: number[];
    readonly unacceptable: number;
    readonly expected: number;
    readonly error: number;
    readonly power: number;
    readonly spending: Spending;
    readonly failure: boolean;
    readonly totals: readonly number[];
    readonly passFrom: Row;
    readonly failAt: Row;
    readonly errorSpent: Row;
    readonly passIfExpected: Row;
    readonly stopIfUnacceptable: Row;
    readonly finalError: number;
    readonly finalPower: number;
    readonly meanUnacceptable: number;
    readonly meanExpected: number;
  }[];
  readonly rules: readonly {
    readonly total: readonly number[];
    readonly passFrom: Row;
    readonly failAt: Row;
    readonly truths: number[];
    readonly pass: readonly number[];
    readonly fail: readonly number[];
    readonly mean: readonly number[];
  }[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-planning-stopping.R`. */
const file = new URL("../../reference/second-opinion-planning-stopping.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Opinion;
/** Sums of up to a few hundred products: their last places differ. */
const CLOSE = { relative: 1e-11, absolute: 1e-15 };

describe("two stages, every design tried by R", () => {
  it.each(opinion.twoStage)("$unacceptable against $expected, $error, $power, up to $largest", (row) => {
    const { unacceptable, expected, error, power, largest } = row;
    const { values } = compute(planningTwoStage, { unacceptable, expected }, { error, power, largest });
    for (const name of ["smallestExpected", "minimax"] as const) {
      const design = values[name];
      const borders = design?.looks.flatMap(({ total, failAt }) => [total, failAt]) ?? [
        null,
        null,
        null,
        null,
      ];
      expect(borders, name).toEqual(row[name].slice(0, 4));
      if (design === null) continue;
      const { expectedTotal, expectedIfGood, stopsEarly } = design;
      const found = [expectedTotal, expectedIfGood, stopsEarly, design.error, design.power];
      found.forEach((value, at) => {
        expectClose(value, row[name][4 + at] ?? -1, CLOSE, `${name} ${at}`);
      });
    }
    expect(values.single?.total ?? null).toBe(row.single[0]);
    expect(values.single?.passFrom ?? null).toBe(row.single[1]);
    if (values.single !== null) {
      expectClose(values.single.error, row.single[2] ?? -1, CLOSE, "single error");
      expectClose(values.single.power, row.single[3] ?? -1, CLOSE, "single power");
    }
  });
});

describe("spending, by R's pnorm and log", () => {
  it.each(opinion.spending)("$spending of $error", ({ spending, error, shares, spent }) => {
    shares.forEach((share, at) => {
      // R has 2 - 2 * pnorm(z): the small tails lose what 1 does not hold.
      expectClose(spentBy(share, error, spending), spent[at] ?? -1, { relative: 1e-12, absolute: 5e-16 });
    });
  });
});

describe("group sequential plans, every border and total tried by R", () => {
  it.each(opinion.sequential)("$spending, $unacceptable against $expected at $fractions", (row) => {
    const { fractions, unacceptable, expected, error, power, spending, failure } = row;
    const asked = { unacceptable, expected, fractions };
    const { values } = compute(planningGroupSequential, asked, { error, power, spending, failure });
    expect(values.looks.map(({ total }) => total)).toEqual(row.totals);
    expect(values.looks.map(({ passFrom }) => passFrom)).toEqual(row.passFrom);
    expect(values.looks.map(({ failAt }) => failAt)).toEqual(row.failAt);
    for (const field of ["errorSpent", "passIfExpected", "stopIfUnacceptable"] as const) {
      values.looks.forEach((look, at) => {
        expectClose(look[field], row[field][at] ?? -1, CLOSE, `${field} ${at}`);
      });
    }
    expectClose(values.error, row.finalError, CLOSE, "error");
    expectClose(values.power, row.finalPower, CLOSE, "power");
    expectClose(values.expectedTotal.unacceptable, row.meanUnacceptable, CLOSE, "people if unacceptable");
    expectClose(values.expectedTotal.expected, row.meanExpected, CLOSE, "people if as expected");
  });
});

describe("stopping rules, followed by R", () => {
  it.each(opinion.rules)("looks at $total", ({ total, passFrom, failAt, truths, pass, fail, mean }) => {
    const looks = total.map((people, at) => ({
      total: people,
      passFrom: passFrom[at] ?? null,
      failAt: failAt[at] ?? null,
    }));
    const { values } = compute(planningStoppingRule, { looks, truths }, { draws: 100 });
    values.truths.forEach((found, at) => {
      expectClose(found.pass, pass[at] ?? -1, CLOSE, "pass");
      expectClose(found.fail, fail[at] ?? -1, CLOSE, "fail");
      expectClose(found.expectedTotal, mean[at] ?? -1, CLOSE, "people");
    });
  });
});
