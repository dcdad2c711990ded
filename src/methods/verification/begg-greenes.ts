import * as v from "valibot";
import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { choice, draws, level, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { simulated } from "../predictive/simulated.ts";
import { beggGreenesExamples } from "./begg-greenes-examples.ts";
import {
  type Completed,
  completedMeasure,
  deltaEstimate,
  logitEstimate,
  standardErrorOf,
} from "./completed.ts";
import { drawnMeasures } from "./drawn-measures.ts";
import { plainBounds } from "./extreme-cases.ts";
import {
  type Cell,
  cellsOf,
  eachMeasure,
  MEASURES,
  type Measure,
  measureEstimates,
  ShareVerified,
  strataFields,
  VerifiedOnly,
} from "./fields.ts";
import { absentNote, verifiedNotes } from "./measure-notes.ts";
import { verifiedOnly, verifiedOnlyNotes } from "./verified-only.ts";

const Input = v.strictObject(strataFields);
const Options = v.strictObject({
  level: level(),
  interval: v.optional(
    choice(
      ["logit", "delta", "simulated"],
      "limits by the delta method in log odds, or in proportions, or from draws of the posterior (Jeffreys priors), which exist at 0 and 1 too",
    ),
    "logit",
  ),
  draws: draws("number of random draws of the simulated interval", 10_000, 1_000_000),
  seed: seed(1),
});
const Range = (meaning: string) =>
  v.pipe(
    v.strictObject({
      lowest: quantity("proportion", "if the unverified have what is worst for the kit"),
      highest: quantity("proportion", "if they have what is best for it"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  ...measureEstimates,
  standardErrors: eachMeasure("standard errors by the delta method"),
  verifiedOnly: VerifiedOnly(),
  shareVerified: ShareVerified(),
  bounds: v.pipe(
    v.strictObject({ sensitivity: Range("sensitivity"), specificity: Range("specificity") }),
    v.description("what is certain without any assumption; chance not counted"),
  ),
});
export type BeggGreenesInput = v.InferOutput<typeof Input>;
export type BeggGreenesOptions = v.InferOutput<typeof Options>;
export type BeggGreenesValues = v.InferOutput<typeof Values>;

/**
 * Accuracy where only some people were verified, and whether they were hung on the test's result (and on
 * the stratum) alone: the unverified are taken to be like the verified with the same result and stratum.
 *
 * @param input   people by stratum, result and what is known of their true state
 * @param options kind of interval; draws and seed of the simulated one
 * @returns proportions in 0..1. `null` with the note `nobody_verified` where a cell has people but nobody
 *   verified: not identifiable, only bounds remain. Limits `null` with a note where the estimate is 0 or 1
 * Behaves badly where few of many people were verified, and is biased where verification also hangs on
 * symptoms or risk that go with the true state: see `verification.sensitivity`.
 * Source: begg1983
 */
export function correctForVerification(
  input: BeggGreenesInput,
  options: BeggGreenesOptions,
): Finding<BeggGreenesValues> {
  const cells = cellsOf(input.strata);
  const completed = Object.fromEntries(
    MEASURES.map((measure) => [measure, completedMeasure(cells, measure)]),
  ) as Record<Measure, Completed | null>;
  const drawn = options.interval === "simulated" ? drawnMeasures(cells, options.draws, options.seed) : {};
  const estimates = {} as Record<Measure, Estimate>;
  const standardErrors = {} as Record<Measure, number | null>;
  for (const measure of MEASURES) {
    const found = completed[measure];
    estimates[measure] = found === null ? NOT_ESTIMABLE : estimateOf(found, options, drawn[measure]);
    standardErrors[measure] = found === null ? null : standardErrorOf(found);
  }
  const observed = verifiedOnly(cells, options.level);
  const bounds = plainBounds(cells);
  const values: BeggGreenesValues = { ...estimates, standardErrors, ...observed, bounds };
  return { values, notes: notesOn(cells, completed, values, options) };
}

function estimateOf(
  completed: Completed,
  { interval, level: wanted }: BeggGreenesOptions,
  drawn: Float64Array | undefined,
): Estimate {
  if (interval === "logit") return logitEstimate(completed, wanted);
  if (interval === "delta") {
    const { value, lower, upper } = deltaEstimate(completed, wanted);
    return { value, lower: lower && Math.max(0, lower), upper: upper && Math.min(1, upper) };
  }
  if (drawn === undefined) return { value: completed.value, lower: null, upper: null };
  const { lower, upper } = simulated(drawn, wanted);
  return { value: completed.value, lower: lower.value, upper: upper.value };
}

function notesOn(
  cells: readonly Cell[],
  completed: Readonly<Record<Measure, Completed | null>>,
  values: BeggGreenesValues,
  options: BeggGreenesOptions,
): Note[] {
  const notes = verifiedNotes(cells, "sensitivity");
  for (const measure of MEASURES) {
    const found = completed[measure];
    if (found === null) {
      const absent = absentNote(cells, measure, measure);
      notes.push(absent, { ...absent, path: `standardErrors.${measure}` });
    } else if (found.logitError === null) {
      notes.push(...edgeNotes(measure, found.value, options));
    } else if (options.interval === "delta") {
      const { lower, upper } = deltaEstimate(found, options.level);
      const message = "the formula's limit lies outside 0 to 1 and was cut: logit limits are better here";
      if ((lower ?? 0) < 0) notes.push(note("truncated", `${measure}.lower`, message));
      if ((upper ?? 0) > 1) notes.push(note("truncated", `${measure}.upper`, message));
    }
  }
  for (const [measure, range] of Object.entries(values.bounds)) {
    const message = "in this extreme case there is nobody of the kind that this counts";
    if (range.lowest === null) notes.push(note("no_people", `bounds.${measure}.lowest`, message));
    if (range.highest === null) notes.push(note("no_people", `bounds.${measure}.highest`, message));
  }
  return [...notes, ...verifiedOnlyNotes(values)];
}

function edgeNotes(measure: Measure, value: number, { interval }: BeggGreenesOptions): Note[] {
  const message = `the estimate is ${value}, where the delta method gives no error; that does not mean certainty. The simulated interval exists here`;
  const paths = [`standardErrors.${measure}`];
  if (interval !== "simulated") paths.push(`${measure}.lower`, `${measure}.upper`);
  return paths.map((path) => note("at_the_edge", path, message));
}

export const beggGreenes = defineMethod({
  id: "verification.begg_greenes",
  version: 1,
  title: "Accuracy where only some were verified",
  question: "How accurate is the kit, when its result decided who got the reference test?",
  formula:
    "p(cell) = diseased / verified, of a stratum and result; expected diseased = people × p. Sensitivity = expected diseased among the reactive / expected diseased in all, likewise specificity, prevalence and predictive values. Variance of the log odds by the delta method over the multinomial counts; one stratum: 1 / (N t (1 - t)) + (1 - p1) / (p1 v1) + (1 - p0) / (p0 v0), with t = share of the reactive, v = verified",
  caution:
    "right only if, among people with the same result and stratum, who was verified has nothing to do with who was diseased. A few missed cases among few verified nonreactive people decide the sensitivity. Where no missed case was among the verified, logit and delta limits don't exist: the simulated interval does",
  sources: ["begg1983", "zhou2011"],
  input: Input,
  options: Options,
  values: Values,
  run: correctForVerification,
  examples: beggGreenesExamples,
});
