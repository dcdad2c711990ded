import * as v from "valibot";
import { count, proportion, quantity, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

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
