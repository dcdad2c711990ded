import * as v from "valibot";
import { estimate, level, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { aroundValue, fewDisagreements } from "./around.ts";
import { pairWeights, requireSquare, squareTable } from "./fields.ts";
import { type KappaEstimate, kappaEstimate } from "./kappa-estimate.ts";
import { kappaExamples } from "./kappa-examples.ts";
import { largestAgreement } from "./largest-agreement.ts";
import { marginsOf, type SquareShares, sharesOf, sum } from "./square-shares.ts";
import { type Matrix, weightsFor } from "./weights.ts";

const Input = v.strictObject({ table: squareTable() });
const Options = v.strictObject({ weights: pairWeights(), level: level() });
const Values = v.strictObject({
  kappa: estimate("statistic", "agreement beyond chance: 1 full, 0 as by chance, below 0 less"),
  standardError: quantity("statistic", "large-sample standard error of kappa, for its interval"),
  nullStandardError: quantity("statistic", "standard error if there were no agreement beyond chance"),
  z: quantity("statistic", "kappa over its standard error under chance agreement"),
  pValue: quantity("probability", "two-sided, of chance agreement: seldom the question"),
  observedAgreement: quantity("proportion", "observed agreement, weighted if weights were asked for"),
  expectedAgreement: quantity("proportion", "agreement of two such readers by chance, weighted likewise"),
  largestKappa: quantity("statistic", "largest kappa of readers who use each category as often as these"),
});
export type KappaInput = v.InferOutput<typeof Input>;
export type KappaOptions = v.InferOutput<typeof Options>;
export type KappaValues = v.InferOutput<typeof Values>;

const FIELDS = Object.keys(Values.entries);
const BEYOND_CHANCE = ["kappa", "standardError", "nullStandardError", "z", "pValue", "largestKappa"];

/**
 * Agreement of two readers beyond what chance would give, plain or weighted.
 *
 * Weights say how much a pair of categories counts as agreement: `none` only the same category,
 * `linear` and `quadratic` less with the distance in the order given, `ordinal` by pairs within the span,
 * or a matrix of one's own. Choose them before looking at the data.
 *
 * Behaves badly where one category is rare: kappa is then low at high agreement, and its interval too
 * short (see `agreement.chance_corrected`). Never give kappa alone. Large-sample interval: doubtful
 * below about 50 items.
 *
 * @param input   square table of counts of items: rows the first reader, columns the second
 * @param options weights, level
 * @returns coefficients in -1..1. `null` with a note where nothing was read (`no_observations`), where
 *   both readers used one and the same category only (`no_variation`), or where the standard error is 0
 *   (`no_width`, `one_category`); `few_disagreements` where the interval rests on fewer than 10 items
 * @throws InputError where the table is not square or the weights do not fit it
 * Sources: cohen1960, cohen1968, fleiss1969
 */
export function kappaOfTable({ table }: KappaInput, options: KappaOptions): Finding<KappaValues> {
  requireSquare(table, ["input", "table"]);
  const weights = weightsFor(options.weights, table.length);
  const shares = sharesOf(table);
  if (shares.total === 0) {
    return { values: nothing(null), notes: notesAt("no_observations", FIELDS, "nothing was read") };
  }
  const found = kappaEstimate(shares, weights);
  if (found.kappa === null) {
    const message =
      "the readings leave no room for disagreement by chance (one category only): kappa does not exist";
    return { values: nothing(found), notes: notesAt("no_variation", BEYOND_CHANCE, message) };
  }
  return completed(table, weights, found, found.kappa, shares, options);
}

function completed(
  table: Matrix,
  weights: Matrix,
  found: KappaEstimate,
  kappa: number,
  shares: SquareShares,
  options: KappaOptions,
): Finding<KappaValues> {
  const multiple = normalQuantile((1 - options.level) / 2, "upper");
  const lowest = typeof options.weights === "string" ? -1 : Number.NEGATIVE_INFINITY;
  const around = aroundValue("kappa", kappa, found.standardError ?? 0, multiple, lowest);
  const z = found.nullStandardError ? kappa / found.nullStandardError : null;
  const { rows, columns } = marginsOf(table);
  const largest = largestAgreement(rows, columns, weights) / shares.total;
  const values: KappaValues = {
    kappa: around.estimate,
    standardError: found.standardError,
    nullStandardError: found.nullStandardError,
    z,
    pValue: z === null ? null : 2 * normalCdf(Math.abs(z), "upper"),
    observedAgreement: found.observed,
    expectedAgreement: found.expected,
    largestKappa: (largest - found.expected) / (1 - found.expected),
  };
  const agreed = sum(table.map((row, index) => row[index] ?? 0));
  const few = fewDisagreements("kappa", around.estimate, shares.total - agreed);
  return { values, notes: [...around.notes, ...few, ...marginNotes(shares, z)] };
}

function nothing(found: KappaEstimate | null): KappaValues {
  return {
    kappa: { value: null, lower: null, upper: null },
    standardError: null,
    nullStandardError: null,
    z: null,
    pValue: null,
    observedAgreement: found?.observed ?? null,
    expectedAgreement: found?.expected ?? null,
    largestKappa: null,
  };
}

function marginNotes({ first, second }: SquareShares, z: number | null): Note[] {
  const single = [first, second].some((margin) => margin.includes(1));
  const notes: Note[] = [];
  if (single) {
    const message = "a reader used one category only: kappa is 0 however often the two agree";
    notes.push(note("one_category", "kappa", message));
  }
  if (z === null) {
    const message = "under chance agreement kappa could not differ from what was seen: no test";
    notes.push(...notesAt("no_width", ["z", "pValue"], message));
  }
  return notes;
}

export const kappa = defineMethod({
  id: "agreement.kappa",
  version: 1,
  title: "Kappa of two readers",
  question: "How far do two readers agree beyond chance?",
  formula:
    "kappa = (po - pe) / (1 - pe); po = sum of w p(i,j), pe = sum of w p(i.) p(.j). Variance = [sum of p(i,j) (w (1 - pe) - (W(i.) + W(.j)) (1 - po))² - (po pe - 2 pe + po)²] / (n (1 - pe)^4), W(i.) and W(.j) being mean weights of row and column; under chance [sum of p(i.) p(.j) (w - W(i.) - W(.j))² - pe²] / (n (1 - pe)²)",
  caution:
    "depends on how common each category is: low at high agreement where one is rare, and not comparable between populations. Give it with the specific agreements. The interval is for large samples; with few items of the rarer category it covers too little",
  sources: ["cohen1960", "cohen1968", "fleiss1969", "fleiss1981kappa"],
  input: Input,
  options: Options,
  values: Values,
  run: kappaOfTable,
  examples: kappaExamples,
});
