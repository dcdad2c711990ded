import * as v from "valibot";
import { choice, openProportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { betaQuantile } from "../../numeric/beta-quantile.ts";
import { notesAt } from "../notes-at.ts";
import { elicitedExamples } from "./elicited-beta-examples.ts";
import { betasThrough, densityPoints, type Reached } from "./elicited-family.ts";
import type { BetaPrior } from "./prior-fields.ts";

const Input = v.strictObject({
  middle: v.pipe(
    v.strictObject({
      kind: choice(["mean", "median", "mode"], "which middle is meant"),
      value: openProportion("the share believed likeliest, or in the middle"),
    }),
    v.description("the best guess of the share"),
  ),
  percentile: v.pipe(
    v.strictObject({
      at: openProportion("a share that is hardly believed"),
      chance: openProportion("the chance that the true share lies below it"),
    }),
    v.description("how sure the guess is: e.g. a chance of 0.05 to be below 0.90"),
  ),
});
const Options = v.strictObject({});
const finite = v.pipe(v.number(), v.finite("expected a finite number"));
const Values = v.strictObject({
  alpha: quantity("statistic", "first shape of the beta distribution"),
  beta: quantity("statistic", "second shape"),
  equivalentPeople: quantity("people", "alpha + beta: the people whose results would weigh as much"),
  mean: quantity("proportion", "mean"),
  median: quantity("proportion", "median"),
  mode: quantity("proportion", "mode: the highest point, where it is inside 0..1"),
  standardDeviation: quantity("proportion", "standard deviation"),
  quantiles: v.pipe(
    v.array(
      v.strictObject({ chance: finite, at: v.pipe(finite, v.description("the share below which it lies")) }),
    ),
    v.description("chances to be below a share: to be shown to whoever stated the belief"),
  ),
  density: v.pipe(
    v.array(v.strictObject({ at: finite, density: finite })),
    v.description("61 points evenly over the central 99.8 %"),
  ),
});
export type ElicitedBetaInput = v.InferOutput<typeof Input>;
export type ElicitedBetaValues = v.InferOutput<typeof Values>;

const CHANCES = [0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.975, 0.99];

/**
 * Which beta distribution says what somebody believes of a share: a best guess and one percentile?
 *
 * @param input the guess (mean, median or mode) and a chance to be below a share
 * @returns the shapes, and what else they say; all `null` with a note `no_such_beta` where no beta weighing from a
 *   thousandth of a person to a thousand million people has both. Where two have both, the heavier, and a note
 *   `other_beta`
 * @throws InputError where the percentile is the median over again
 * Behaves badly where the belief has two humps or ends before 0 and 1: no beta is like that.
 * Source: ohagan2006
 */
export function elicitedBeta(input: ElicitedBetaInput): Finding<ElicitedBetaValues> {
  if (input.middle.kind === "median" && input.middle.value === input.percentile.at) {
    const path = ["input", "percentile", "at"];
    throw new InputError(path, "a share other than the median, which says nothing more", input.percentile.at);
  }
  const reached = betasThrough(input.middle, input.percentile.at, input.percentile.chance);
  const [shapes, other] = reached.found;
  if (shapes === undefined) return nothing(input, reached);
  const values = describe(shapes);
  return { values, notes: notesOn(values, other) };
}

function describe({ alpha, beta }: BetaPrior): ElicitedBetaValues {
  const total = alpha + beta;
  return {
    alpha,
    beta,
    equivalentPeople: total,
    mean: alpha / total,
    median: betaQuantile(0.5, alpha, beta),
    mode: alpha > 1 && beta > 1 ? (alpha - 1) / (total - 2) : null,
    standardDeviation: Math.sqrt(((alpha / total) * (beta / total)) / (total + 1)),
    quantiles: CHANCES.map((chance) => ({ chance, at: betaQuantile(chance, alpha, beta) })),
    density: densityPoints({ alpha, beta }, 61),
  };
}

function notesOn(values: ElicitedBetaValues, other: BetaPrior | undefined): Note[] {
  const notes: Note[] = [];
  if (values.mode === null) {
    const message = "a shape is 1 or less: this beta is highest at 0 or at 1, which may not be what is meant";
    notes.push(note("no_mode", "mode", message));
  }
  if (other !== undefined) {
    const message = `another beta has both as well and says less: alpha ${other.alpha.toPrecision(4)}, beta ${other.beta.toPrecision(4)}. Check the quantiles`;
    notes.push(note("other_beta", "alpha", message));
  }
  return notes;
}

function nothing({ middle, percentile }: ElicitedBetaInput, reached: Reached): Finding<ElicitedBetaValues> {
  const values: ElicitedBetaValues = {
    alpha: null,
    beta: null,
    equivalentPeople: null,
    mean: null,
    median: null,
    mode: null,
    standardDeviation: null,
    quantiles: [],
    density: [],
  };
  const [least, most] = [reached.leastChance, reached.mostChance].map((chance) => chance.toPrecision(3));
  const message = `no beta with ${middle.kind} ${middle.value} has a chance of ${percentile.chance} to be below ${percentile.at}: such betas have chances from ${least} to ${most}`;
  return { values, notes: notesAt("no_such_beta", Object.keys(values), message) };
}

export const elicitedBetaMethod = defineMethod({
  id: "reference.elicited_beta",
  version: 1,
  title: "Beta prior from a best guess and a percentile",
  question: "Which beta distribution says what is believed of a share beforehand?",
  formula:
    "mean m: alpha = m w, beta = (1 - m) w; mode m: alpha = 1 + m w, beta = 1 + (1 - m) w; median: the share of alpha + beta = w with I_m(alpha, beta) = 1/2. w such that I_at(alpha, beta) = chance; of several the largest",
  caution:
    "two numbers do not pin a belief down: show the other quantiles to whoever stated it. A prior taken from the study's own data counts them twice. Experts are surer than they should be: try half the weight too",
  sources: ["ohagan2006"],
  input: Input,
  options: Options,
  values: Values,
  run: elicitedBeta,
  examples: elicitedExamples,
});
