import * as v from "valibot";
import { level, openProportion, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { roundUp } from "./round-up.ts";

const Input = v.strictObject({
  sensitivity: proportion("sensitivity expected"),
  specificity: proportion("specificity expected"),
  halfWidth: openProportion("half the length wanted of either interval"),
  prevalence: openProportion("share of the people enrolled who have the condition"),
});
const Options = v.strictObject({ level: level() });
const enrolled = {
  enrolledForSensitivity: quantity("people", "people to enrol for enough with the condition"),
  enrolledForSpecificity: quantity("people", "people to enrol for enough without it"),
  enrolled: quantity("people", "people to enrol for both: the larger of the two"),
};
const Values = v.strictObject({
  diseased: quantity("people", "people with the condition that the sensitivity needs"),
  nondiseased: quantity("people", "people without it that the specificity needs"),
  ...enrolled,
  fromRounded: v.pipe(
    v.strictObject(enrolled),
    v.description("the same, dividing the numbers already rounded up"),
  ),
});
export type PrecisionNormalInput = v.InferOutput<typeof Input>;
export type PrecisionNormalOptions = v.InferOutput<typeof Options>;
export type PrecisionNormalValues = v.InferOutput<typeof Values>;

/**
 * The textbook size of an accuracy study: people with and without the condition for intervals of a wanted
 * length, and how many to enrol for them at a prevalence.
 *
 * @param input   sensitivity and specificity expected, half-width wanted, prevalence in (0, 1)
 * @param options level of the intervals
 * @returns whole people. Texts differ in whether the number with the condition is rounded up before it is
 *   divided by the prevalence: both are given. 0 where a proportion of 0 or 1 is expected
 * Behaves badly near 0 and 1, where the normal interval is far too short, and leaves the number of people with
 * the condition to chance: about every second study ends with fewer than planned
 * Source: buderer1996
 */
export function precisionNormal(
  input: PrecisionNormalInput,
  options: PrecisionNormalOptions,
): Finding<PrecisionNormalValues> {
  const z = normalQuantile((1 - options.level) / 2, "upper");
  const needed = (share: number) => (z * z * share * (1 - share)) / (input.halfWidth * input.halfWidth);
  const diseased = needed(input.sensitivity);
  const nondiseased = needed(input.specificity);
  const values = {
    diseased: roundUp(diseased),
    nondiseased: roundUp(nondiseased),
    ...enrolFor(diseased, nondiseased, input.prevalence),
    fromRounded: enrolFor(roundUp(diseased), roundUp(nondiseased), input.prevalence),
  };
  return { values, notes: [] };
}

function enrolFor(diseased: number, nondiseased: number, prevalence: number) {
  const enrolledForSensitivity = roundUp(diseased / prevalence);
  const enrolledForSpecificity = roundUp(nondiseased / (1 - prevalence));
  return {
    enrolledForSensitivity,
    enrolledForSpecificity,
    enrolled: Math.max(enrolledForSensitivity, enrolledForSpecificity),
  };
}

export const planningPrecisionNormal = defineMethod({
  id: "planning.precision_normal",
  version: 1,
  title: "Textbook size for sensitivity and specificity",
  question: "How many people does the textbook formula ask for, at this prevalence?",
  formula:
    "with the condition: z² Se (1 - Se) / h²; without: z² Sp (1 - Sp) / h²; to enrol: the former / prevalence, the latter / (1 - prevalence); rounded up once at the end, or at each step",
  caution:
    "for teaching, and to compare with other protocols. Near 100 % it plans for too few, its interval being too short; and the number of people with the condition is left to chance. Exact: planning.precision and planning.enrolment",
  sources: ["buderer1996"],
  input: Input,
  options: Options,
  values: Values,
  run: precisionNormal,
  examples: [
    {
      name: "sensitivity .90, specificity .85, within .10, prevalence .20",
      input: { sensitivity: 0.9, specificity: 0.85, halfWidth: 0.1, prevalence: 0.2 },
      expect: {
        diseased: 35,
        nondiseased: 49,
        enrolledForSensitivity: 173,
        enrolledForSpecificity: 62,
        "fromRounded.enrolledForSensitivity": 175,
        "fromRounded.enrolledForSpecificity": 62,
      },
      tolerance: { relative: 0 },
      source: "buderer1996",
      recomputedBy: "R 4.2.2: ceiling(z^2 p (1 - p) / d^2), then / prevalence",
      memory: true,
    },
    {
      name: "sensitivity .98 within .02 at prevalence .02",
      input: { sensitivity: 0.98, specificity: 0.98, halfWidth: 0.02, prevalence: 0.02 },
      expect: { diseased: 189, "fromRounded.enrolledForSensitivity": 9450, "fromRounded.enrolled": 9450 },
      tolerance: { relative: 0 },
      source: "buderer1996",
      recomputedBy: "R 4.2.2: ceiling(qnorm(.975)^2 * .98 * .02 / .02^2); 189 / .02",
      memory: true,
    },
  ],
});
