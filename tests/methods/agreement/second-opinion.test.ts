import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import type { Note } from "../../../src/core/note.ts";
import { chanceCorrected } from "../../../src/methods/agreement/chance-corrected.ts";
import { kappa } from "../../../src/methods/agreement/kappa.ts";
import { manyReaders } from "../../../src/methods/agreement/many-readers.ts";
import { expectClose, type Tolerance } from "../../tolerance.ts";

/** Made with R 4.2.2 base/stats and with statsmodels 0.13.5; the scripts stand in `tests/reference/scripts`. */
type Row = Readonly<Record<string, unknown>>;
type File = Readonly<Record<string, readonly Row[]>>;

function opinion(name: string): File {
  return JSON.parse(readFileSync(new URL(`../../reference/${name}`, import.meta.url), "utf8")) as File;
}

const rows = (file: File, name: string): [string, Row][] =>
  (file[name] ?? []).map((row, at) => [`${at}: ${JSON.stringify(row.table ?? row.categories)}`, row]);

const r = opinion("second-opinion-agreement.json");
const statsmodels = opinion("second-opinion-agreement-statsmodels.json");
/** Standard errors are differences of nearly equal sums there: about ten digits. */
const NEAR: Tolerance = { relative: 1e-9, absolute: 1e-13 };
const WEIGHTS = ["none", "linear", "quadratic", "ordinal"] as const;

function expectAll(found: readonly (number | null)[], expected: unknown, what: string) {
  const numbers = expected as readonly number[];
  expect(found).toHaveLength(numbers.length);
  numbers.forEach((number, at) => {
    expectClose(found[at], number, NEAR, `${what}, number ${at}`);
  });
}

const codesAt = (notes: readonly Note[], place: string) =>
  notes.filter(({ path }) => path === place).map(({ code }) => code);

describe("two readers, R: definitions and complex-step delta method", () => {
  it.each(rows(r, "twoReaders"))("table %s", (_, row) => {
    const table = row.table as number[][];
    for (const weights of WEIGHTS) {
      const { values } = compute(kappa, { table }, { weights });
      const found = [values.kappa.value, values.standardError, values.nullStandardError];
      expectAll(found, row[weights], `kappa, weights ${weights}`);
    }
    const { values } = compute(chanceCorrected, { table });
    expectAll([values.scottPi.value, values.scottPiStandardError], row.scottPi, "pi");
    expectAll([values.ac1.value, values.ac1StandardError], row.ac1, "AC1");
    expectAll([values.pabak.value, values.pabak.lower, values.pabak.upper], row.pabak, "PABAK");
  });
});

describe("two readers, statsmodels and a linear programme", () => {
  it.each(rows(statsmodels, "kappa"))("table %s", (_, row) => {
    const options = { weights: row.weights as "none" | number[][] };
    const { values, notes } = compute(kappa, { table: row.table as number[][] }, options);
    const [value, lower, upper] = row.kappa as [number, number, number];
    // A limit above 1 is cut here and not there.
    const cut = [value, lower, Math.min(1, upper)];
    expectAll([values.kappa.value, values.kappa.lower, values.kappa.upper], cut, "kappa");
    expect(codesAt(notes, "kappa.upper")).toEqual(upper > 1 ? ["truncated"] : []);
    expectAll(
      [values.standardError, values.nullStandardError, values.pValue, values.largestKappa],
      [row.standardError, row.nullStandardError, row.pValue, row.largestKappa],
      "standard errors, p-value, largest kappa",
    );
  });
});

describe("many readers", () => {
  it.each(rows(r, "manyReaders"))("R, by loops over pairs: study %s", (_, row) => {
    const ratings = row.ratings as (number | null)[][];
    const categories = Array.from({ length: row.categories as number }, (__, at) => at + 1);
    const run = (more: object) =>
      compute(manyReaders, { ratings }, { categories, replicates: 100, ...more }).values;
    const pairOf = (found: { estimate: { value: number | null }; standardError: number | null }) => [
      found.estimate.value,
      found.standardError,
    ];
    expectAll(pairOf(run({}).fleissKappa), row.fleissKappa, "Fleiss");
    for (const weights of WEIGHTS) {
      const expected = row[weights === "ordinal" ? "ordinalWeights" : weights];
      expectAll(pairOf(run({ weights }).gwetAgreement), expected, `AC, weights ${weights}`);
    }
    for (const scale of ["nominal", "ordinal", "interval", "ratio"] as const) {
      expectAll(pairOf(run({ scale }).krippendorffAlpha), row[scale], `alpha, ${scale}`);
    }
  });

  it.each(rows(statsmodels, "fleiss"))("statsmodels, complete ratings: study %s", (_, row) => {
    const { values } = compute(manyReaders, { ratings: row.ratings as number[][] }, { replicates: 100 });
    expectClose(values.fleissKappa.estimate.value, row.kappa as number, NEAR, "Fleiss");
  });
});
