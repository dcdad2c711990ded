import * as v from "valibot";
import { count, level, proportionEstimate, quantity, seed, text } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { exactHomogeneity } from "./exact-homogeneity.ts";
import { requireStrata, type Stratum, stratum, tables } from "./fields.ts";
import { simulatedHomogeneity } from "./simulated-homogeneity.ts";

const Input = v.strictObject({
  strata: v.pipe(
    v.array(v.strictObject(stratum)),
    v.minLength(1, "expected at least one stratum"),
    v.description("one entry per stratum: site, lot, operator"),
  ),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  draws: tables(),
  seed: seed(1),
});
const Values = v.strictObject({
  strata: v.pipe(
    v.array(v.strictObject({ label: text("stratum"), proportion: proportionEstimate("proportion here") })),
    v.description("one entry per stratum, in the order given"),
  ),
  overall: proportionEstimate("proportion over all strata together"),
  chiSquare: quantity("statistic", "Pearson's chi-square, without continuity correction"),
  degreesOfFreedom: quantity("degrees of freedom", "strata with people, less one"),
  pValue: quantity("probability", "p-value of the chi-square"),
  exactPValue: quantity("probability", "p-value of the exact conditional test"),
  monteCarloError: quantity("probability", "standard error of the exact p-value; 0 if it was not simulated"),
  draws: count("random tables drawn; 0 if none were needed"),
});
export type HomogeneityInput = v.InferOutput<typeof Input>;
export type HomogeneityOptions = v.InferOutput<typeof Options>;
export type HomogeneityValues = v.InferOutput<typeof Values>;

/**
 * Is a proportion the same in all strata? Chi-square and exact conditional test, with each stratum's
 * interval.
 *
 * @param input   counts of independent people per stratum; strata with nobody stay in the list and out
 *   of the test
 * @returns p-values in 0..1; `null` with a note where fewer than two strata have people
 *   (`too_few_strata`) or nothing varies (`no_variation`, the exact p-value is then 1)
 * Sources: fleiss1981, freeman1951, mehta1983
 */
export function homogeneityOfStrata(
  { strata }: HomogeneityInput,
  options: HomogeneityOptions,
): Finding<HomogeneityValues> {
  requireStrata(strata);
  const filled = strata.filter(({ total }) => total > 0);
  const notes: Note[] = strata.flatMap(({ label, total }, index) =>
    total > 0 ? [] : [note("no_observations", `strata.${index}`, `nobody in ${label}: left out of the test`)],
  );
  const pearson = pearsonOf(filled);
  const exact = exactPart(filled, options);
  const values: HomogeneityValues = {
    strata: strata.map(({ label, count: seen, total }) => ({
      label,
      proportion: estimateProportion(seen, total, options),
    })),
    overall: estimateProportion(sum(filled, "count"), sum(filled, "total"), options),
    ...pearson.values,
    ...exact.values,
  };
  if (values.overall.total === 0) notes.push(note("no_observations", "overall", "nobody was observed"));
  return { values, notes: [...notes, ...pearson.notes, ...exact.notes] };
}

const sum = (strata: readonly Stratum[], field: "count" | "total") =>
  strata.reduce((total, entry) => total + entry[field], 0);

function pearsonOf(strata: readonly Stratum[]): {
  values: Pick<HomogeneityValues, "chiSquare" | "degreesOfFreedom" | "pValue">;
  notes: Note[];
} {
  const share = sum(strata, "count") / sum(strata, "total");
  const absent = { chiSquare: null, degreesOfFreedom: null, pValue: null };
  if (strata.length < 2) {
    const paths = ["chiSquare", "degreesOfFreedom", "pValue"];
    const message = "fewer than two strata have people: nothing to compare";
    return { values: absent, notes: paths.map((path) => note("too_few_strata", path, message)) };
  }
  const degreesOfFreedom = strata.length - 1;
  if (share === 0 || share === 1) {
    const message = "all people have the same result: nothing varies";
    return {
      values: { ...absent, degreesOfFreedom },
      notes: [note("no_variation", "chiSquare", message), note("no_variation", "pValue", message)],
    };
  }
  const chiSquare = strata.reduce(
    (total, entry) =>
      total + Math.pow(entry.count - entry.total * share, 2) / (entry.total * share * (1 - share)),
    0,
  );
  const smallest = Math.min(...strata.map(({ total }) => total)) * Math.min(share, 1 - share);
  const message = `the smallest expected count is ${smallest.toFixed(1)}, below 5: prefer the exact p-value`;
  const notes = smallest < 5 ? [note("small_expected_counts", "pValue", message)] : [];
  return {
    values: { chiSquare, degreesOfFreedom, pValue: chiSquareCdf(chiSquare, degreesOfFreedom, "upper") },
    notes,
  };
}

function exactPart(
  strata: readonly Stratum[],
  options: HomogeneityOptions,
): {
  values: Pick<HomogeneityValues, "exactPValue" | "monteCarloError" | "draws">;
  notes: Note[];
} {
  if (strata.length < 2) {
    const message = "fewer than two strata have people: nothing to compare";
    return {
      values: { exactPValue: null, monteCarloError: null, draws: 0 },
      notes: [
        note("too_few_strata", "exactPValue", message),
        note("too_few_strata", "monteCarloError", message),
      ],
    };
  }
  const totals = strata.map(({ total }) => total);
  const counts = strata.map((entry) => entry.count);
  const exact = exactHomogeneity(totals, counts);
  if (exact !== null) return { values: { exactPValue: exact, monteCarloError: 0, draws: 0 }, notes: [] };
  const { draws } = options;
  const simulated = simulatedHomogeneity(totals, counts, draws, options.seed);
  const monteCarloError = Math.sqrt((simulated * (1 - simulated)) / draws);
  const message = `too many tables to add up: estimated from ${draws} random tables`;
  return {
    values: { exactPValue: simulated, monteCarloError, draws },
    notes: [note("simulated", "exactPValue", message)],
  };
}

const SMOKERS = {
  strata: [
    { label: "1", count: 83, total: 86 },
    { label: "2", count: 90, total: 93 },
    { label: "3", count: 129, total: 136 },
    { label: "4", count: 70, total: 82 },
  ],
};

export const homogeneity = defineMethod({
  id: "strata.homogeneity",
  version: 1,
  title: "Is a proportion the same in all strata?",
  question: "Do sites, lots or operators differ, or is it chance?",
  formula:
    "chi-square = sum of (count - total p)² / (total p (1 - p)) with p = all counted / all people, strata - 1 degrees of freedom; exact: probability, margins fixed, of all tables no more probable than the one seen",
  caution:
    "no sign of a difference is not a sign of no difference: look at the intervals. A stratum picked after seeing the data can't be tested fairly",
  sources: ["fleiss1981", "freeman1951", "mehta1983"],
  input: Input,
  options: Options,
  values: Values,
  run: homogeneityOfStrata,
  examples: [
    {
      name: "smokers in four studies",
      input: SMOKERS,
      expect: { chiSquare: 12.6004112971276, degreesOfFreedom: 3, pValue: 0.00558547666162704 },
      tolerance: { relative: 1e-8 },
      source: "fleiss1981",
      recomputedBy: "R 4.2.2 prop.test",
      memory: true,
    },
    {
      name: "the same, to the digits R prints",
      input: SMOKERS,
      expect: { pValue: 0.005585 },
      tolerance: { decimals: 6 },
      source: "r_prop_test",
    },
    {
      name: "smokers, exact",
      input: SMOKERS,
      expect: { exactPValue: 0.0144719066472262, monteCarloError: 0 },
      tolerance: { relative: 1e-6 },
      source: "freeman1951",
      recomputedBy: "R 4.2.2 fisher.test",
      memory: true,
    },
  ],
});
