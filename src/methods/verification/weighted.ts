import * as v from "valibot";
import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { choice, level, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { requireDifferent } from "../algorithms/quantities.ts";
import { type Completed, logitEstimate, standardErrorOf } from "./completed.ts";
import {
  type Cell,
  eachMeasure,
  MEASURES,
  type Measure,
  measureEstimates,
  peopleIn,
  RESULTS,
  stateCounts,
  VerifiedOnly,
} from "./fields.ts";
import { verifiedNotes } from "./measure-notes.ts";
import { verifiedOnly, verifiedOnlyNotes } from "./verified-only.ts";
import { weightedExamples } from "./weighted-examples.ts";
import { type WeightedCell, weightedMeasure } from "./weighted-measure.ts";
import { designNotes, wontDo } from "./weighted-notes.ts";

const Input = v.strictObject({
  groups: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the group"),
        result: choice(RESULTS, "result of the kit"),
        ...stateCounts,
        probability: v.optional(
          v.pipe(
            v.number(),
            v.gtValue(0, "expected a probability above 0, at most 1"),
            v.maxValue(1, "expected a probability above 0, at most 1"),
            v.description("probability of being verified that the study's design gave these people"),
          ),
        ),
      }),
    ),
    v.minLength(1, "expected one group or more"),
    v.maxLength(2000, "expected at most 2,000 groups"),
    v.description("one entry per group of people who were as likely to be verified"),
  ),
});
const Options = v.strictObject({
  level: level(),
  probabilities: v.optional(
    choice(
      ["estimated", "design"],
      "the share verified of each group, or the probability that the design gave it",
    ),
    "estimated",
  ),
});
const Values = v.strictObject({
  ...measureEstimates,
  standardErrors: eachMeasure("standard errors by linearisation"),
  verifiedOnly: VerifiedOnly(),
  weights: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the group"),
        probability: quantity("probability", "probability of being verified that is used"),
        weight: quantity("ratio", "people that one verified person stands for"),
      }),
    ),
    v.description("one entry per group, same order"),
  ),
  weightedPeople: quantity("people", "people that the verified ones stand for"),
  effectivePeople: quantity(
    "people",
    "verified people of equal weight that would tell as much: (sum of weights)² / sum of their squares",
  ),
});
export type WeightedInput = v.InferOutput<typeof Input>;
export type WeightedOptions = v.InferOutput<typeof Options>;
export type WeightedValues = v.InferOutput<typeof Values>;
type Group = WeightedInput["groups"][number];

/**
 * Accuracy where each verified person stands for all those who were as likely to be verified.
 *
 * With estimated probabilities and groups by result (and stratum) this is the correction of Begg and Greenes,
 * errors included. With probabilities of the design, each person's verification is taken to have been decided
 * on its own: a random sample of fixed size is the estimated case.
 *
 * @param input   groups of people by result, with the probability of verification where the design gave one
 * @param options which probabilities to use
 * @returns proportions in 0..1 with logit limits. All `null` with a note where a group has people but nobody
 *   verified and the probabilities are estimated
 * Behaves badly where a few people have large weights; see `effectivePeople`.
 * Sources: horvitz1952, alonzo2005
 */
export function weightByVerification(
  { groups }: WeightedInput,
  options: WeightedOptions,
): Finding<WeightedValues> {
  const cells = groups.map((group, at) => weightedCell(group, at, options));
  requireDifferent(
    groups.map(({ label }) => label),
    ["input", "groups"],
    "label",
  );
  if (cells.every((cell) => peopleIn(cell) === 0)) {
    throw new InputError(["input", "groups"], "at least one person", 0);
  }
  const estimates = {} as Record<Measure, Estimate>;
  const standardErrors = {} as Record<Measure, number | null>;
  const found = {} as Record<Measure, Completed | null>;
  for (const measure of MEASURES) {
    const completed = weightedMeasure(cells, measure, options.probabilities === "estimated");
    found[measure] = completed;
    estimates[measure] = completed === null ? NOT_ESTIMABLE : logitEstimate(completed, options.level);
    standardErrors[measure] = completed === null ? null : standardErrorOf(completed);
  }
  const observed = verifiedOnly(cells, options.level);
  const weights = cells.map(({ label, probability, weight }) => ({ label, probability, weight }));
  const values: WeightedValues = {
    ...estimates,
    standardErrors,
    verifiedOnly: observed.verifiedOnly,
    weights,
    ...sizes(cells),
  };
  const naive = verifiedOnlyNotes(observed).filter(({ path }) => path.startsWith("verifiedOnly"));
  return { values, notes: [...notesOn(cells, found, values, options), ...naive] };
}

function weightedCell(group: Group, at: number, { probabilities }: WeightedOptions): WeightedCell {
  const { probability: designed, ...cell } = group;
  const verified = cell.diseased + cell.nondiseased;
  if (probabilities === "design") {
    if (designed === undefined) {
      const path = ["input", "groups", at, "probability"];
      throw new InputError(path, "the probability that the design gave this group", designed);
    }
    if (designed === 1 && cell.unverified > 0) {
      const path = ["input", "groups", at, "unverified"];
      throw new InputError(path, "0, as the design verifies everybody", cell.unverified);
    }
    return { ...cell, probability: designed, weight: 1 / designed };
  }
  const people = peopleIn(cell);
  if (verified === 0) return { ...cell, probability: people === 0 ? null : 0, weight: null };
  return { ...cell, probability: verified / people, weight: people / verified };
}

function sizes(cells: readonly WeightedCell[]) {
  let people = 0;
  let squares = 0;
  for (const { diseased, nondiseased, weight } of cells) {
    if (weight === null) continue;
    people += weight * (diseased + nondiseased);
    squares += weight * weight * (diseased + nondiseased);
  }
  return { weightedPeople: people, effectivePeople: squares === 0 ? null : (people * people) / squares };
}

function notesOn(
  cells: readonly WeightedCell[],
  found: Readonly<Record<Measure, Completed | null>>,
  values: WeightedValues,
  options: WeightedOptions,
): Note[] {
  const notes: Note[] = verifiedNotes(cells as readonly Cell[], "sensitivity");
  if (options.probabilities === "design") notes.push(...designNotes(cells));
  for (const measure of MEASURES) {
    const completed = found[measure];
    if (completed === null) {
      const absent = wontDo(cells, measure, options.probabilities === "estimated");
      notes.push(absent, { ...absent, path: `standardErrors.${measure}` });
    } else if (completed.logitError === null) {
      const message = `the estimate is ${completed.value}, where there is no error to be had this way; that does not mean certainty. For one kit, the simulated interval of verification.begg_greenes exists here`;
      const paths = [`${measure}.lower`, `${measure}.upper`, `standardErrors.${measure}`];
      notes.push(...paths.map((path) => note("at_the_edge", path, message)));
    }
  }
  for (const [at, { weight, probability }] of values.weights.entries()) {
    const message = "nobody of this group was verified: nobody can stand for it";
    if (weight === null) notes.push(note("nobody_verified", `weights.${at}.weight`, message));
    if (probability === null) {
      notes.push(note("no_people", `weights.${at}.probability`, "there is nobody in this group"));
    }
  }
  if (values.effectivePeople === null) {
    notes.push(note("nobody_verified", "effectivePeople", "nobody at all was verified"));
  }
  return notes;
}

export const weighted = defineMethod({
  id: "verification.weighted",
  version: 1,
  title: "Accuracy with verified people standing for others",
  question: "How accurate is the kit, when people had different chances of getting the reference test?",
  formula:
    "weight = 1 / probability of being verified. Sensitivity = sum of weights of reactive diseased / sum of weights of all diseased, likewise the rest. A person moves the log odds by weight × ([counts above] / sum above - [counts below] / sum below); variance = sum of squares; with estimated probabilities less what the group's size foretells",
  caution:
    "right only if, within a group, who was verified has nothing to do with who was diseased, and every group had a chance. A known probability is less precise than the share seen. Few people with large weights decide everything: look at the effective number",
  sources: ["horvitz1952", "alonzo2005", "begg1983"],
  input: Input,
  options: Options,
  values: Values,
  run: weightByVerification,
  examples: weightedExamples,
});
