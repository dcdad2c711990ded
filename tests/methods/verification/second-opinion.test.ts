import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { completedMeasure } from "../../../src/methods/verification/completed.ts";
import { cellsOf, MEASURES } from "../../../src/methods/verification/fields.ts";
import { imputed } from "../../../src/methods/verification/imputed.ts";
import { combinedLogit, combinedScore } from "../../../src/methods/verification/rubin.ts";
import { sensitivity } from "../../../src/methods/verification/sensitivity.ts";
import { weighted } from "../../../src/methods/verification/weighted.ts";
import { expectClose } from "../../tolerance.ts";
import { strataOf } from "./tables.ts";

type Numbers = readonly number[];
interface Opinion {
  readonly corrected: readonly {
    counts: Numbers;
    ratios: [number, number];
    values: Numbers;
    errors: Numbers;
  }[];
  readonly weighted: readonly (Readonly<Record<(typeof MEASURES)[number], [number, number]>> & {
    groups: readonly [number, number, number, number][];
    people: number;
    effective: number;
  })[];
  readonly imputed: readonly { counts: Numbers; means: Numbers; between: Numbers }[];
  readonly rubin: readonly {
    counts: Numbers;
    total: number;
    score: readonly (number | null)[];
    logit: Numbers;
  }[];
  readonly borders: readonly {
    table: number;
    measure: number;
    threshold: number;
    axis: [number, number];
    side: number;
    roots: Numbers;
  }[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-verification.R`. */
const file = new URL("../../reference/second-opinion-verification.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Opinion;

describe("R's second opinion", () => {
  it.each(opinion.corrected)(
    "corrected: $counts, odds ratios $ratios",
    ({ counts, ratios, values, errors }) => {
      const [reactive, nonreactive] = ratios;
      for (const [at, measure] of MEASURES.entries()) {
        const found = completedMeasure(cellsOf(strataOf(counts)), measure, { reactive, nonreactive });
        expectClose(found?.value, values[at] as number, { relative: 1e-12 }, measure);
        // R's errors come from numerical derivatives.
        expectClose(found?.logitError, errors[at] as number, { relative: 1e-8 }, `error of ${measure}`);
      }
      if (reactive !== 1 || nonreactive !== 1) return;
      const method = compute(beggGreenes, { strata: strataOf(counts) }).values;
      for (const [at, measure] of MEASURES.entries()) {
        const value = values[at] as number;
        expectClose(method[measure].value, value, { relative: 1e-12 }, measure);
        const error = value * (1 - value) * (errors[at] as number);
        expectClose(method.standardErrors[measure], error, { relative: 1e-8 }, measure);
      }
    },
  );

  it.each(opinion.weighted)("weights of the design: $groups", (row) => {
    const groups = row.groups.map(([reactive, diseased, nondiseased, probability], at) => ({
      label: `${at}`,
      result: reactive === 1 ? ("reactive" as const) : ("nonreactive" as const),
      diseased,
      nondiseased,
      unverified: Math.round((diseased + nondiseased) * (1 / probability - 1)),
      probability,
    }));
    const { values } = compute(weighted, { groups }, { probabilities: "design" });
    for (const measure of MEASURES) {
      expectClose(values[measure].value, row[measure][0], { relative: 1e-12 }, measure);
      expectClose(values.standardErrors[measure], row[measure][1], { relative: 1e-12 }, measure);
    }
    expectClose(values.weightedPeople, row.people, { relative: 1e-12 }, "people");
    expectClose(values.effectivePeople, row.effective, { relative: 1e-12 }, "effective people");
  });

  it.each(opinion.imputed)("imputed: $counts", ({ counts, means, between }) => {
    const tables = 10_000;
    const { values } = compute(imputed, { strata: strataOf(counts) }, { imputations: tables });
    for (const [at, measure] of MEASURES.entries()) {
      const spread = between[at] as number;
      // Ours from 10,000 tables, R's from 400,000: within four and a half standard errors of both.
      const absolute = 4.5 * Math.sqrt(spread / tables + spread / 400_000) + 1e-12;
      expectClose(values[measure].value, means[at] as number, { absolute }, measure);
      // A variance from 10,000 draws has a relative error of about 1.4 %.
      expectClose(
        values[measure].between,
        spread,
        { relative: 0.08, absolute: 1e-25 },
        `between, ${measure}`,
      );
    }
  });

  it.each(opinion.rubin)("Rubin's rules: $counts of $total", ({ counts, total, score, logit }) => {
    const parts = counts.map((count) => ({ count, total }));
    const scored = combinedScore(parts, 0.95);
    const [lower, upper, within, between, degrees] = score as [number, number, number, number, number | null];
    // R's uniroot stops at about 1e-15; t quantiles with few degrees at 1e-10.
    expectClose(scored?.lower, lower, { relative: 1e-9 }, "lower");
    expectClose(scored?.upper, upper, { relative: 1e-9 }, "upper");
    expectClose(scored?.within, within, { relative: 1e-12 }, "within");
    expectClose(scored?.between, between, { relative: 1e-12, absolute: 1e-30 }, "between");
    if (degrees === null) expect(scored?.degrees).toBeNull();
    else expectClose(scored?.degrees, degrees, { relative: 1e-11 }, "degrees");
    const inLogits = combinedLogit(parts, 0.95);
    const keys = ["value", "lower", "upper", "within", "between"] as const;
    for (const [at, key] of keys.entries()) {
      expectClose(inLogits?.[key], logit[at] as number, { relative: 1e-10, absolute: 1e-30 }, key);
    }
  });

  it.each(opinion.borders)("borders: table $table, $threshold, axis $axis, side $side", (row) => {
    const tables = [...new Set(opinion.corrected.map(({ counts }) => counts.join()))];
    const counts = (tables[row.table] as string).split(",").map(Number);
    const axis = row.axis[0] === 0 ? "nonreactive" : row.axis[1] === 0 ? "reactive" : "both";
    const measure = MEASURES[row.measure] as (typeof MEASURES)[number];
    const criterion = { measure, threshold: row.threshold, direction: "at_least" as const };
    const rule = row.side === 0 ? ("point" as const) : ("interval" as const);
    const found = compute(
      sensitivity,
      { strata: strataOf(counts), criterion },
      { rule, lowest: 0.01, highest: 100 },
    ).values.axes[axis].borders.filter(
      ({ below, above }) => rule === "point" || below === "met" || above === "met",
    );
    expect(found.length).toBe(row.roots.length);
    for (const [at, root] of row.roots.entries()) {
      // With limits, R's errors are numerical.
      expectClose(found[at]?.oddsRatio, root, { relative: row.side === 0 ? 1e-11 : 1e-7 }, "border");
    }
  });
});
