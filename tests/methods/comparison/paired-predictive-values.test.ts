import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { pairedPredictiveValues } from "../../../src/methods/comparison/paired-predictive-values.ts";
import { unpaired } from "../../../src/methods/comparison/unpaired.ts";
import { normalQuantile } from "../../../src/numeric/normal.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { LEVEL, mirrored, PAIRED } from "./arbitrary.ts";

const TABLES = fc.record({ positives: PAIRED, negatives: PAIRED });
const FULL = fc.integer({ min: 1, max: 60 });
const FULL_ROW = fc.record({ both: FULL, firstOnly: FULL, secondOnly: FULL, neither: FULL });
type Row = { both: number; firstOnly: number; secondOnly: number; neither: number };
type Tables = { positives: Row; negatives: Row };
const CELLS = ["both", "firstOnly", "secondOnly", "neither"] as const;
const REACTIVE = { first: ["both", "firstOnly"], second: ["both", "secondOnly"] } as const;

const ppvOf = ({ positives, negatives }: Tables, test: "first" | "second") => {
  const sum = (row: Row) => REACTIVE[test].reduce((total, cell) => total + row[cell], 0);
  return sum(positives) / (sum(positives) + sum(negatives));
};

/** Multinomial variance of any function of the cells, its slopes taken by small steps. */
function numericVariance(tables: Tables, f: (tables: Tables) => number): number {
  let [squares, mean, people] = [0, 0, 0];
  for (const side of ["positives", "negatives"] as const) {
    for (const cell of CELLS) {
      const moved = (step: number) =>
        f({ ...tables, [side]: { ...tables[side], [cell]: tables[side][cell] + step } });
      const slope = (moved(1e-4) - moved(-1e-4)) / 2e-4;
      squares += tables[side][cell] * slope ** 2;
      mean += tables[side][cell] * slope;
      people += tables[side][cell];
    }
  }
  return squares - mean ** 2 / people;
}

/** The generalised score statistic person by person, as its paper writes it (recalled). */
function scorePersonByPerson({ positives, negatives }: Tables): number {
  const persons: { right: number; tests: number[] }[] = [];
  for (const [row, right] of [
    [positives, 1],
    [negatives, 0],
  ] as const) {
    for (const [cell, tests] of [
      ["both", [0, 1]],
      ["firstOnly", [0]],
      ["secondOnly", [1]],
    ] as const) {
      for (let person = 0; person < row[cell]; person += 1) persons.push({ right, tests: [...tests] });
    }
  }
  const results = persons.flatMap(({ right, tests }) => tests.map((test) => ({ right, test })));
  const mean = (numbers: number[]) => numbers.reduce((sum, next) => sum + next, 0) / numbers.length;
  const meanTest = mean(results.map(({ test }) => test));
  const meanRight = mean(results.map(({ right }) => right));
  const top = results.reduce((sum, { right, test }) => sum + right * (test - meanTest), 0);
  const bottom = persons.reduce((sum, { right, tests }) => {
    const own = tests.reduce((part, test) => part + (right - meanRight) * (test - meanTest), 0);
    return sum + own ** 2;
  }, 0);
  return top ** 2 / bottom;
}

describe("comparison.paired_predictive_values", () => {
  it("gives plain numbers, or null with a note, for any counts", () => {
    fc.assert(
      fc.property(TABLES, LEVEL, (tables, level) => {
        expect(faultsOf(compute(pairedPredictiveValues, tables, { level }))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  it("turns signs when the two tests are exchanged, and keeps every p", () => {
    const exchange = (row: Row) => ({ ...row, firstOnly: row.secondOnly, secondOnly: row.firstOnly });
    fc.assert(
      fc.property(TABLES, ({ positives, negatives }) => {
        const one = compute(pairedPredictiveValues, { positives, negatives }).values;
        const exchanged = { positives: exchange(positives), negatives: exchange(negatives) };
        const other = compute(pairedPredictiveValues, exchanged).values;
        for (const part of ["ppv", "npv"] as const) {
          const turned = mirrored(other[part].difference);
          for (const side of ["value", "lower", "upper"] as const) {
            const expected = one[part].difference[side];
            if (expected === null) expect(turned[side]).toBeNull();
            else expectClose(turned[side], expected, { absolute: 1e-12 }, `${part} ${side}`);
          }
          for (const test of ["generalisedScore", "weightedScore"] as const) {
            const expected = one[part][test].pValue;
            if (expected === null) expect(other[part][test].pValue).toBeNull();
            else expectClose(other[part][test].pValue, expected, { relative: 1e-9, absolute: 1e-300 }, test);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it("exchanges PPV and NPV when reactive and reference-positive are renamed", () => {
    const renamed = ({ both, firstOnly, secondOnly, neither }: Row) => ({
      both: neither,
      firstOnly: secondOnly,
      secondOnly: firstOnly,
      neither: both,
    });
    fc.assert(
      fc.property(TABLES, ({ positives, negatives }) => {
        const one = compute(pairedPredictiveValues, { positives, negatives }).values;
        const other = compute(pairedPredictiveValues, {
          positives: renamed(negatives),
          negatives: renamed(positives),
        }).values;
        expect(other.ppv).toEqual(one.npv);
        expect(other.npv).toEqual(one.ppv);
      }),
    );
  });

  it("takes the multinomial variance of difference and log ratio", () => {
    fc.assert(
      fc.property(FULL_ROW, FULL_ROW, (positives, negatives) => {
        const tables = { positives, negatives };
        const { difference, ratio } = compute(pairedPredictiveValues, tables).values.ppv;
        const z = normalQuantile(0.975);
        const reach = z * Math.sqrt(numericVariance(tables, (t) => ppvOf(t, "first") - ppvOf(t, "second")));
        const lower = Math.max(-1, (difference.value as number) - reach);
        expectClose(difference.lower, lower, { absolute: 1e-6 }, "difference");
        const logRatio = (t: Tables) => Math.log(ppvOf(t, "first") / ppvOf(t, "second"));
        const factor = Math.exp(z * Math.sqrt(numericVariance(tables, logRatio)));
        expectClose(ratio.upper, (ratio.value as number) * factor, { relative: 1e-5 }, "ratio");
      }),
    );
  });

  it("has the generalised score that adding person by person gives", () => {
    fc.assert(
      fc.property(FULL_ROW, FULL_ROW, (positives, negatives) => {
        const { generalisedScore } = compute(pairedPredictiveValues, { positives, negatives }).values.ppv;
        const expected = scorePersonByPerson({ positives, negatives });
        expectClose(generalisedScore.chiSquare, expected, { relative: 1e-9, absolute: 1e-12 });
      }),
    );
  });

  it("has Pearson's chi-square as weighted score where nobody is reactive on both (kosinski2013)", () => {
    fc.assert(
      fc.property(FULL_ROW, FULL_ROW, (positives, negatives) => {
        const apart = { positives: { ...positives, both: 0 }, negatives: { ...negatives, both: 0 } };
        const { weightedScore } = compute(pairedPredictiveValues, apart).values.ppv;
        const group = (cell: "firstOnly" | "secondOnly") => ({
          count: positives[cell],
          total: positives[cell] + negatives[cell],
        });
        const groups = { first: group("firstOnly"), second: group("secondOnly") };
        const { chiSquare } = compute(unpaired, groups).values.pearson;
        expectClose(weightedScore.chiSquare, chiSquare as number, { relative: 1e-9, absolute: 1e-12 });
      }),
    );
  });

  it("explains tests that agree in everybody", () => {
    const row = { both: 5, firstOnly: 0, secondOnly: 0, neither: 9 };
    const { values, notes } = compute(pairedPredictiveValues, { positives: row, negatives: row });
    expect(values.ppv.weightedScore).toEqual({ chiSquare: 0, pValue: 1 });
    expect(values.npv.generalisedScore).toEqual({ chiSquare: 0, pValue: 1 });
    expect(notes.filter(({ code }) => code === "no_discordance")).toHaveLength(2);
  });
});
