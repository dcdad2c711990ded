import * as v from "valibot";
import { choice, draws, level, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { isBlind, uses } from "./completed.ts";
import type { Part } from "./extreme-cases.ts";
import { type Cell, cellsOf, MEASURES, type Measure, strataFields, VerifiedOnly } from "./fields.ts";
import { imputations } from "./imputed-draws.ts";
import { imputedExamples } from "./imputed-examples.ts";
import { absentNote, verifiedNotes } from "./measure-notes.ts";
import { type Combined, combinedLogit, combinedScore } from "./rubin.ts";
import { verifiedOnly, verifiedOnlyNotes } from "./verified-only.ts";

const Input = v.strictObject(strataFields);
const Options = v.strictObject({
  level: level(),
  interval: v.optional(
    choice(
      ["score", "logit"],
      "limits by Rubin's rules in a score interval, or in log odds (which need people on both sides in every completed table)",
    ),
    "score",
  ),
  imputations: draws("number of completed tables", 200, 100_000),
  seed: seed(1),
});
const Imputed = (meaning: string) =>
  v.pipe(
    v.strictObject({
      value: quantity("proportion", "mean over the completed tables"),
      lower: quantity("proportion", "lower limit"),
      upper: quantity("proportion", "upper limit"),
      within: quantity("statistic", "mean variance within completed tables, on the scale of the interval"),
      between: quantity("statistic", "variance between completed tables, on the same scale"),
      missingShare: quantity("proportion", "share of the variance that is due to the people not verified"),
      degrees: quantity("degrees of freedom", "of the t distribution that the limits use"),
      simulationError: quantity(
        "proportion",
        "standard error of the value that the finite number of completed tables leaves",
      ),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  sensitivity: Imputed("P(reactive | diseased)"),
  specificity: Imputed("P(nonreactive | nondiseased)"),
  prevalence: Imputed("P(diseased), among all people tested"),
  ppv: Imputed("P(diseased | reactive)"),
  npv: Imputed("P(nondiseased | nonreactive)"),
  verifiedOnly: VerifiedOnly(),
});
export type ImputedInput = v.InferOutput<typeof Input>;
export type ImputedOptions = v.InferOutput<typeof Options>;
export type ImputedValues = v.InferOutput<typeof Values>;
type OneMeasure = ImputedValues["sensitivity"];

const ABSENT: OneMeasure = {
  value: null,
  lower: null,
  upper: null,
  within: null,
  between: null,
  missingShare: null,
  degrees: null,
  simulationError: null,
};

/**
 * Accuracy from many tables completed at random, in each of which the unverified have what people with the
 * same result and stratum were found to have; put together by Rubin's rules.
 *
 * @param input   people by stratum, result and what is known of their true state
 * @param options kind of interval, number of completed tables, seed
 * @returns proportions in 0..1. `null` with the note `nobody_verified` where a cell has people but nobody
 *   verified: there the prior alone would speak
 * Behaves badly where few of very many people were verified: the Jeffreys prior adds half a diseased person to
 * each cell's verified, which the many unverified multiply.
 * Sources: rubin1987, harel2006, lott2020
 */
export function imputeUnverified(input: ImputedInput, options: ImputedOptions): Finding<ImputedValues> {
  const cells = cellsOf(input.strata);
  const completed = imputations(cells, options.imputations, options.seed);
  const notes: Note[] = verifiedNotes(cells, "sensitivity");
  const found = {} as Record<Measure, OneMeasure>;
  for (const measure of MEASURES) {
    const outcome = measureFrom(cells, measure, completed[measure], options);
    found[measure] = outcome.values;
    notes.push(...outcome.notes);
  }
  const observed = verifiedOnly(cells, options.level);
  const naive = verifiedOnlyNotes(observed).filter(({ path }) => path.startsWith("verifiedOnly"));
  return { values: { ...found, verifiedOnly: observed.verifiedOnly }, notes: [...notes, ...naive] };
}

function measureFrom(
  cells: readonly Cell[],
  measure: Measure,
  parts: readonly Part[],
  { interval, level: wanted }: ImputedOptions,
): { values: OneMeasure; notes: Note[] } {
  const blind = cells.some((cell) => uses(measure, cell.result) && isBlind(cell));
  if (blind) return { values: ABSENT, notes: [absentNote(cells, measure, measure)] };
  const scored = combinedScore(parts, wanted);
  if (scored === null) {
    const message = "in some completed tables there is nobody of the kind that this counts";
    return { values: ABSENT, notes: [note("no_people", measure, message)] };
  }
  if (interval === "score") return described(measure, scored, scored.between, parts.length);
  const logit = combinedLogit(parts, wanted);
  if (logit !== null) return described(measure, logit, scored.between, parts.length);
  const message =
    "some completed tables have nobody on one side, where log odds don't exist: ask for the score interval";
  return { values: ABSENT, notes: [note("at_the_edge", measure, message)] };
}

/** @param spread variance between completed tables on the scale of proportions */
function described(measure: Measure, combined: Combined, spread: number, tables: number) {
  const { total: _, ...kept } = combined;
  const values: OneMeasure = { ...kept, simulationError: Math.sqrt(spread / tables) };
  const message = "the completed tables don't differ in this: the limits use the normal distribution";
  const notes = combined.degrees === null ? [note("no_spread", `${measure}.degrees`, message)] : [];
  return { values, notes };
}

export const imputed = defineMethod({
  id: "verification.imputed",
  version: 1,
  title: "Accuracy from tables completed at random",
  question: "How accurate is the kit, with the unverified filled in as often as chance allows?",
  formula:
    "each table: p(cell) from Beta(diseased + 1/2, nondiseased + 1/2), diseased among the unverified from Binomial(unverified, p). Q = mean estimate, W = mean variance, B = variance of the estimates, T = W + (1 + 1/M) B, degrees = (M - 1) (T / ((1 + 1/M) B))². Score limits: Wilson's with t² T / W in place of z²",
  caution:
    "right only if, among people with the same result and stratum, who was verified has nothing to do with who was diseased. Where 100 stand for 10,000 the prior's half person counts 50: compare with verification.begg_greenes",
  sources: ["rubin1987", "harel2006", "lott2020"],
  input: Input,
  options: Options,
  values: Values,
  run: imputeUnverified,
  examples: imputedExamples,
});
