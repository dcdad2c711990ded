import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../src/core/method.ts";
import { predictiveInterval } from "../../src/methods/predictive/predictive-interval.ts";
import { differenceInterval } from "../../src/methods/proportion/difference-interval.ts";
import { exactTest } from "../../src/methods/proportion/exact-test.ts";
import type { IntervalMethod } from "../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../src/methods/proportion/proportion-interval.ts";
import { ratioInterval } from "../../src/methods/proportion/ratio-interval.ts";
import { fisher } from "../../src/methods/strata/fisher.ts";
import { homogeneity } from "../../src/methods/strata/homogeneity.ts";
import { trend } from "../../src/methods/strata/trend.ts";
import { expectClose, type Tolerance } from "../tolerance.ts";

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion.R`; infinity is a word. */
type Row = Readonly<Record<string, unknown>>;
const file = new URL("../reference/second-opinion.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Readonly<Record<string, readonly Row[]>>;

function rows(name: string): [string, Row][] {
  const found = opinion[name] ?? [];
  return found.map((row) => [JSON.stringify(row).slice(0, 60), row]);
}

function expectPair(
  { lower, upper }: { lower: number | null; upper: number | null },
  pair: unknown,
  tolerance: Tolerance,
  what: string,
) {
  const [low, high] = pair as [number | string, number | string];
  for (const [side, actual, expected] of [
    ["lower", lower, low],
    ["upper", upper, high],
  ] as const) {
    if (expected === "Infinity") expect(actual, `${what} ${side}`).toBeNull();
    else expectClose(actual, expected as number, tolerance, `${what} ${side}`);
  }
}

const fourOf = ({ table }: Row) => {
  const [a, m, b, n] = table as [number, number, number, number];
  return { first: { count: a, total: m }, second: { count: b, total: n } };
};

describe("intervals of a proportion", () => {
  it.each([...rows("intervals"), ...rows("scores"), ...rows("large")])("%s", (_, row) => {
    const { count, total, level, ...limits } = row as Record<string, number>;
    for (const [method, pair] of Object.entries(limits)) {
      const found = proportionInterval(count as number, total as number, {
        method: method as IntervalMethod,
        level: level as number,
      });
      // R's uniroot stops at 1e-15 of the proportion, its sums of many masses at about 1e-12.
      expectPair(found, pair, { relative: 1e-9, absolute: 2e-14 }, method);
    }
  });
});

describe("exact binomial test", () => {
  it.each(rows("binomial"))("%s", (_, row) => {
    const { count, total, hypothesis, ...expected } = row as Record<"count" | "total" | "hypothesis", number>;
    const { values } = compute(exactTest, { count, total, hypothesis });
    for (const [side, p] of Object.entries(expected)) {
      expectClose(values[side as "twoSided"], p as number, { relative: 1e-10 }, side);
    }
  });
});

describe("ratio and difference of two proportions", () => {
  it.each(rows("ratios"))("score interval of the ratio: %s", (_, row) => {
    const { first, second } = fourOf(row);
    expectPair(ratioInterval(first, second, "score", 0.95), row.score, { relative: 1e-10 }, "score");
  });

  it.each(rows("differences"))("hybrid score interval of the difference: %s", (_, row) => {
    const { first, second } = fourOf(row);
    const found = differenceInterval(first, second, "newcombe", 0.95);
    expectPair(found, row.newcombe, { relative: 1e-11 }, "newcombe");
  });
});

describe("Fisher's exact test", () => {
  it.each(rows("fisher"))("%s", (_, row) => {
    const { values } = compute(fisher, fourOf(row));
    for (const side of ["twoSided", "greater", "less"] as const) {
      expectClose(values[side], row[side] as number, { relative: 1e-9 }, side);
    }
    const [ratio, lower, upper] = row.oddsRatio as [number | string, number | string, number | string];
    expectPair(values.oddsRatio, [lower, upper], { relative: 1e-9 }, "limits");
    if (ratio === "Infinity") expect(values.oddsRatio.value).toBeNull();
    else expectClose(values.oddsRatio.value, ratio as number, { relative: 1e-9 }, "odds ratio");
  });
});

describe("strata", () => {
  it.each(rows("strata"))("%s", (_, row) => {
    const totals = row.totals as number[];
    const strata = (row.counts as number[]).map((count, at) => ({
      label: `${at + 1}`,
      count,
      total: totals[at] as number,
      score: at + 1,
    }));
    const plain = strata.map(({ label, count, total }) => ({ label, count, total }));
    const alike = compute(homogeneity, { strata: plain }).values;
    expectClose(alike.chiSquare, row.chiSquare as number, { relative: 1e-10 }, "chi-square");
    expectClose(alike.pValue, row.pValue as number, { relative: 1e-10 }, "p");
    expectClose(alike.exactPValue, row.exactPValue as number, { relative: 1e-6 }, "exact p");
    const trended = compute(trend, { strata }).values;
    expectClose(trended.chiSquare, row.trendChiSquare as number, { relative: 1e-10 }, "trend chi-square");
    expectClose(trended.pValue, row.trendPValue as number, { relative: 1e-10 }, "trend p");
  });
});

describe("predictive values", () => {
  it.each(rows("predictive"))("%s", (_, row) => {
    const [truePositives, positives, trueNegatives, negatives, prevalence] = row.study as [
      number,
      number,
      number,
      number,
      number,
    ];
    const study = { truePositives, positives, trueNegatives, negatives };
    const found = predictiveInterval(study, prevalence, "logit", 0.95);
    expectPair(found.ppv, row.ppv, { relative: 1e-11 }, "ppv");
    expectPair(found.npv, row.npv, { relative: 1e-11 }, "npv");
  });
});
