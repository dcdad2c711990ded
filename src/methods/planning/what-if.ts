import * as v from "valibot";
import { choice, openProportion, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { criterionSize } from "./criterion-size.ts";
import { enrolledFor } from "./enrolment-size.ts";
import { criterionOptions, direction, horizon, power } from "./fields.ts";
import { roundUp } from "./round-up.ts";
import { whatIfExamples } from "./what-if-examples.ts";

const upTo = (least: number, meaning: string) =>
  v.pipe(
    v.array(openProportion(meaning)),
    v.minLength(least, `expected ${least} or more`),
    v.maxLength(12, "expected at most 12"),
    v.description(`${meaning}: ${least} to 12 of them`),
  );
const Input = v.strictObject({
  expected: v.pipe(
    v.array(proportion("a proportion expected in truth")),
    v.minLength(1, "expected 1 or more"),
    v.maxLength(12, "expected at most 12"),
    v.description("proportions expected in truth: 1 to 12 of them"),
  ),
  thresholds: upTo(1, "proportions demanded"),
  prevalences: v.optional(upTo(0, "shares of reference-positive people among those enrolled"), []),
  direction: direction(),
  of: v.optional(
    choice(["positives", "negatives"], "whom the proportion is of, by the reference"),
    "positives",
  ),
});
const Options = v.strictObject({
  ...criterionOptions,
  power: power(),
  assurance: v.optional(openProportion("probability wanted that enough people are enrolled"), 0.9),
  usable: v.optional(
    v.pipe(
      proportion("share of the people enrolled with a usable pair of results"),
      v.gtValue(0, "expected a proportion above 0"),
    ),
    1,
  ),
  horizon: horizon(),
});
const Values = v.strictObject({
  cells: v.pipe(
    v.array(
      v.strictObject({
        expected: quantity("proportion", "the proportion expected in truth"),
        threshold: quantity("proportion", "the proportion demanded"),
        first: quantity("people", "fewest positives (or negatives) that reach the power"),
        stays: quantity("people", "number from which on the power stays reached, up to the horizon"),
        enrol: v.pipe(
          v.array(
            v.strictObject({
              prevalence: quantity("proportion", "share of reference-positive people"),
              expected: quantity("people", "to be enrolled so that `stays` of them are expected"),
              assured: quantity("people", "to be enrolled so that `stays` of them come with the assurance"),
            }),
          ),
          v.description("one entry for each prevalence, in the order given"),
        ),
      }),
    ),
    v.description("every expected proportion with every threshold, the threshold running faster"),
  ),
});
export type WhatIfInput = v.InferOutput<typeof Input>;
export type WhatIfOptions = v.InferOutput<typeof Options>;
export type WhatIfValues = v.InferOutput<typeof Values>;

type Cell = WhatIfValues["cells"][number];

/**
 * What if the kit is a little worse than hoped, the demand a little higher, the condition rarer?
 *
 * @param input   proportions expected, thresholds, and prevalences (none: no enrolment is worked out)
 * @param options as of `planning.criterion_size`; assurance that enough people come, and the share usable
 * @returns one cell for each expected proportion with each threshold. `first` and `stays` as of
 *   `planning.criterion_size`; enrolments are for `stays`. `null` with a note where the criterion can't be shown
 *   within the horizon, or where more than a thousand million people would have to be enrolled
 * Sources: flahault2005, buderer1996
 */
export function planWhatIf(input: WhatIfInput, options: WhatIfOptions): Finding<WhatIfValues> {
  const { thresholds, direction: side } = input;
  const notes: Note[] = [];
  const cells = input.expected.flatMap((expected, row) =>
    thresholds.map((threshold, column): Cell => {
      const place = `cells.${row * thresholds.length + column}`;
      const { values, notes: found } = criterionSize({ expected, threshold, direction: side }, options);
      const [first, stays] = [values.first.total, values.stays.total];
      const spoken = found.filter(({ path }) => path === "first" || path === "stays");
      notes.push(...spoken.map(({ code, path, message }) => note(code, `${place}.${path}`, message)));
      return { expected, threshold, first, stays, enrol: enrolments(stays, input, options, place, notes) };
    }),
  );
  return { values: { cells }, notes };
}

/** More people than this are not planned for. */
const MOST_ENROLLED = 1_000_000_000;

function enrolments(
  needed: number | null,
  { prevalences, of }: WhatIfInput,
  { usable, assurance }: WhatIfOptions,
  place: string,
  notes: Note[],
): Cell["enrol"] {
  return prevalences.map((prevalence, at) => {
    const share = (of === "positives" ? prevalence : 1 - prevalence) * usable;
    if (needed === null || needed > MOST_ENROLLED * share) {
      const message = needed === null ? NO_NUMBER : TOO_MANY;
      notes.push(note(needed === null ? "no_size" : "too_many", `${place}.enrol.${at}`, message));
      return { prevalence, expected: null, assured: null };
    }
    const assured = enrolledFor(needed, share, assurance);
    return { prevalence, expected: roundUp(needed / share), assured };
  });
}

const NO_NUMBER = "no number of people keeps the power, so that there is none to enrol for";
const TOO_MANY =
  "more than 1,000,000,000 people would have to be enrolled: choose a place where more of them count";

export const whatIf = defineMethod({
  id: "planning.what_if",
  version: 1,
  title: "What if the kit, the demand or the prevalence is another?",
  question: "How does the size of the study change with the kit's quality, the demand and the prevalence?",
  formula:
    "each cell: planning.criterion_size for that expected proportion and threshold. Enrolled: stays / share rounded up; with assurance: smallest N with P(binomial(N, share) >= stays) at or above it. Share = prevalence (positives) or 1 - prevalence (negatives), times the share usable",
  caution:
    "a table to choose from is a table to fool oneself with: the row is to be chosen by what is known of the kit, not by what the budget allows. The prevalence is that among the people enrolled",
  sources: ["flahault2005", "buderer1996"],
  input: Input,
  options: Options,
  values: Values,
  run: planWhatIf,
  examples: whatIfExamples,
});
