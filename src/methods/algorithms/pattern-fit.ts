import * as v from "valibot";
import { count, proportion, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { notesAt } from "../notes-at.ts";
import { whole } from "../planning/fields.ts";
import { exactTails, statisticsOf, waysToSpread } from "./pattern-exact.ts";

const Input = v.strictObject({
  patterns: v.pipe(
    v.array(
      v.strictObject({
        pattern: text("the results, e.g. `reactive, non-reactive`"),
        observed: count("people with these results"),
        probability: proportion("stated probability of these results"),
      }),
    ),
    v.minLength(2, "expected two patterns or more"),
    v.maxLength(64, "expected at most 64 patterns"),
    v.description("every pattern of results that can occur; the probabilities add up to 1"),
  ),
});
const Options = v.strictObject({
  fitted: v.optional(
    whole(0, 63, "parameters that were estimated from these same people; 0 if stated beforehand"),
    0,
  ),
});
const Test = (statistic: string) =>
  v.strictObject({
    statistic: quantity("statistic", statistic),
    p: quantity("probability", "p-value by the chi-square distribution"),
    exact: quantity("probability", "exact p-value: all counts at least as far off by this statistic"),
  });
const Values = v.strictObject({
  people: quantity("people", "people observed"),
  logProbability: quantity("statistic", "natural logarithm of the probability of exactly these counts"),
  degreesOfFreedom: quantity("degrees of freedom", "patterns that can occur, less 1, less those fitted"),
  likelihoodRatio: v.pipe(Test("G²"), v.description("likelihood ratio statistic G²")),
  pearson: v.pipe(Test("X²"), v.description("Pearson's chi-square X²")),
  exact: quantity("probability", "exact p-value: all counts no more probable than those observed"),
  patterns: v.pipe(
    v.array(
      v.strictObject({
        pattern: text("the results"),
        observed: quantity("people", "people observed"),
        expected: quantity("people", "people expected"),
        residual: quantity("statistic", "(observed - expected) over its standard deviation"),
      }),
    ),
    v.description("one entry per pattern, same order"),
  ),
});
export type PatternFitInput = v.InferOutput<typeof Input>;
export type PatternFitOptions = v.InferOutput<typeof Options>;
export type PatternFitValues = v.InferOutput<typeof Values>;

/** Most ways of spreading the people over the patterns that are added up one by one. */
const MOST_WAYS = 1_000_000;
/** How far the probabilities may be from adding up to 1. */
const ROUNDING = 1e-9;
/** Below this many expected people in some pattern the chi-square distribution is no longer near. */
const FEW = 5;

/**
 * Do the result patterns seen fit the probabilities that a model of the kits states?
 *
 * @param input   every pattern that can occur, with the people seen and its stated probability
 * @param options fitted: how many parameters of the model were estimated from these same people
 * @returns `null` with a note where nobody was observed, no degree of freedom is left, a pattern was seen that
 *   the model rules out (then every p-value is 0), or there are too many tables for an exact p-value
 * @throws InputError where the probabilities don't add up to 1
 * Behaves badly with few expected people in a pattern: the chi-square p-values are then rough; mind the exact ones.
 * Source: agresti2002
 */
export function fitOfPatterns(
  input: PatternFitInput,
  { fitted }: PatternFitOptions,
): Finding<PatternFitValues> {
  const stated = input.patterns.reduce((sum, { probability }) => sum + probability, 0);
  if (Math.abs(stated - 1) > ROUNDING) {
    throw new InputError(["input", "patterns"], "probabilities that add up to 1", stated);
  }
  const possible = input.patterns.filter(({ probability }) => probability > 0);
  const ruledOut = input.patterns.filter(({ probability, observed }) => probability === 0 && observed > 0);
  const people = input.patterns.reduce((sum, { observed }) => sum + observed, 0);
  const freedom = possible.length - 1 - fitted;
  const notes: Note[] = [];
  const tests = testsOf(
    { possible, people, freedom, fitted, ruledOut: ruledOut.map(({ pattern }) => pattern) },
    notes,
  );
  const patterns = input.patterns.map(({ pattern, observed, probability }, place) => {
    const spread = Math.sqrt(people * probability * (1 - probability));
    const expected = people * probability;
    if (spread === 0) {
      notes.push(
        note("no_variation", `patterns.${place}.residual`, "this count could not vary: it has no spread"),
      );
    }
    return { pattern, observed, expected, residual: spread > 0 ? (observed - expected) / spread : null };
  });
  return { values: { people, degreesOfFreedom: Math.max(0, freedom), ...tests, patterns }, notes };
}

interface Asked {
  readonly possible: PatternFitInput["patterns"];
  readonly people: number;
  readonly freedom: number;
  readonly fitted: number;
  readonly ruledOut: readonly string[];
}
type Tests = Pick<PatternFitValues, "logProbability" | "likelihoodRatio" | "pearson" | "exact">;

const STATISTICS = ["logProbability", "likelihoodRatio.statistic", "pearson.statistic"];
const EXACT = ["exact", "likelihoodRatio.exact", "pearson.exact"];
const BY_CHI_SQUARE = ["likelihoodRatio.p", "pearson.p"];

function testsOf(asked: Asked, notes: Note[]): Tests {
  const { possible, people, freedom, ruledOut } = asked;
  if (people === 0) {
    notes.push(
      ...notesAt("no_observations", [...STATISTICS, ...EXACT, ...BY_CHI_SQUARE], "nobody was observed"),
    );
    const none = { statistic: null, p: null, exact: null };
    return { logProbability: null, likelihoodRatio: none, pearson: none, exact: null };
  }
  if (ruledOut.length > 0) {
    const message = `seen, but ruled out by the stated probabilities: ${ruledOut.join("; ")}. No statistic can measure that; every p-value is 0`;
    notes.push(...notesAt("ruled_out", STATISTICS, message));
    const none = { statistic: null, p: 0, exact: 0 };
    return { logProbability: null, likelihoodRatio: none, pearson: none, exact: 0 };
  }
  const observed = possible.map((pattern) => pattern.observed);
  const probabilities = possible.map((pattern) => pattern.probability);
  const { logProbability, likelihoodRatio, pearson } = statisticsOf(observed, probabilities);
  const exact = whyNotExact(asked, notes) ? null : exactTails(observed, probabilities);
  const byChiSquare = (statistic: number) => (freedom > 0 ? chiSquareCdf(statistic, freedom, "upper") : null);
  if (freedom <= 0) {
    const message = "no degree of freedom is left: the model fits by its number of parameters alone";
    notes.push(...notesAt("no_freedom", BY_CHI_SQUARE, message));
  } else if (Math.min(...probabilities) * people < FEW) {
    const message = `fewer than ${FEW} people are expected with some pattern: this p-value is rough`;
    notes.push(...notesAt("few_expected", BY_CHI_SQUARE, message));
  }
  return {
    logProbability,
    likelihoodRatio: {
      statistic: likelihoodRatio,
      p: byChiSquare(likelihoodRatio),
      exact: exact?.likelihoodRatio ?? null,
    },
    pearson: { statistic: pearson, p: byChiSquare(pearson), exact: exact?.pearson ?? null },
    exact: exact?.probability ?? null,
  };
}

/** Whether the exact p-values can't be had, with the note that says so. */
function whyNotExact({ fitted, people, possible }: Asked, notes: Note[]): boolean {
  if (fitted > 0) {
    const message =
      "parameters were estimated from these same people: only a stated model has an exact p-value";
    notes.push(...notesAt("fitted", EXACT, message));
    return true;
  }
  if (waysToSpread(people, possible.length) <= MOST_WAYS) return false;
  const message = `more than ${MOST_WAYS.toLocaleString("en-GB")} possible tables: too many to add up`;
  notes.push(...notesAt("too_many", EXACT, message));
  return true;
}

const AGREE = "both reactive";

export const patternFit = defineMethod({
  id: "algorithms.pattern_fit",
  version: 1,
  title: "Fit of the result patterns",
  question:
    "Do the results seen in the same people fit what the stated kits and dependence lead one to expect?",
  formula:
    "probability of the counts n! prod(p^x / x!). G² = 2 sum x ln(x / (n p)), X² = sum (x - n p)² / (n p), chi-square with patterns - 1 - fitted degrees of freedom. Exact: sum of the probabilities of all counts with the same n that are at least as far off. Residual (x - n p) / sqrt(n p (1 - p))",
  caution:
    "that a model fits does not make it right: few people fit almost any model. With few expected people only the exact p-values hold. Each person counts once",
  sources: ["agresti2002"],
  input: Input,
  options: Options,
  values: Values,
  run: fitOfPatterns,
  examples: [
    {
      name: "20 people exactly as expected",
      input: {
        patterns: [
          { pattern: AGREE, observed: 9, probability: 0.45 },
          { pattern: "first only", observed: 2, probability: 0.1 },
          { pattern: "second only", observed: 1, probability: 0.05 },
          { pattern: "neither", observed: 8, probability: 0.4 },
        ],
      },
      expect: { logProbability: -3.88175868312845, exact: 1, "pearson.p": 1 },
      tolerance: { relative: 1e-10 },
      source: "agresti2002",
      recomputedBy: "R 4.2.2 dmultinom",
      memory: true,
    },
    {
      name: "two patterns: 9 and 1 where even numbers are expected",
      input: {
        patterns: [
          { pattern: "reactive", observed: 9, probability: 0.5 },
          { pattern: "non-reactive", observed: 1, probability: 0.5 },
        ],
      },
      expect: { exact: 0.021484375, "pearson.statistic": 6.4 },
      tolerance: { relative: 1e-12 },
      source: "no publication: 22 / 1024, and 16 / 5 + 16 / 5",
    },
  ],
});
