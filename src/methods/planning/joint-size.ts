import * as v from "valibot";
import { openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { criterionSize } from "./criterion-size.ts";
import { criterionOptions, direction, horizon, power, Size } from "./fields.ts";
import { jointSizeExamples } from "./joint-size-examples.ts";

const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion, e.g. the analyte"),
        expected: proportion("the proportion that is expected in truth"),
        threshold: openProportion("the proportion demanded"),
        direction: direction(),
      }),
    ),
    v.minLength(2, "expected two criteria or more"),
    v.maxLength(8, "expected at most 8 criteria"),
    v.description("criteria that must all be met"),
  ),
});
const Options = v.strictObject({
  ...criterionOptions,
  power: power(),
  horizon: horizon(),
});
const Sizes = (meaning: string, together: string) =>
  v.pipe(
    v.strictObject({
      eachPower: quantity("probability", "power that each criterion must have"),
      sizes: v.pipe(
        v.array(
          v.strictObject({
            label: text("name of the criterion"),
            size: Size("total from which on the criterion keeps that power, up to the horizon"),
          }),
        ),
        v.description("one entry for each criterion, in the order given"),
      ),
      together: quantity("probability", together),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  independent: Sizes(
    "if the criteria are met independently of each other",
    "probability that all are met, being independent",
  ),
  guaranteed: Sizes(
    "however the criteria hang together",
    "the least that the probability of all being met can be",
  ),
});
export type JointSizeInput = v.InferOutput<typeof Input>;
export type JointSizeOptions = v.InferOutput<typeof Options>;
export type JointSizeValues = v.InferOutput<typeof Values>;

/**
 * How many people for each criterion, so that all of them are met with the probability wanted?
 *
 * @param input   two to eight criteria with the truth expected of each
 * @param options interval, level, rule as of `proportion.criterion`; power that all are met; how far to look
 * @returns the size of each as of `planning.criterion_size`, its `stays`: larger totals keep what they promise.
 *   `null` with a note for a criterion that nothing within the horizon shows, and for the probability of all
 * `guaranteed` shares the risk equally (Bonferroni): it holds for the same people as for others, and is hardly
 * larger than `independent` where the power is high. Where many people are shared, `planning.joint_power` says
 * what lies between. Sources: berger1982, frechet1951, flahault2005
 */
export function sizeOfAll(input: JointSizeInput, options: JointSizeOptions): Finding<JointSizeValues> {
  const many = input.criteria.length;
  const notes: Note[] = [];
  const planned = (
    kind: keyof JointSizeValues,
    eachPower: number,
    all: (powers: readonly number[]) => number,
  ) => {
    const sizes = input.criteria.map(({ label, ...asked }, at) => {
      const { values, notes: found } = criterionSize(asked, { ...options, power: eachPower });
      notes.push(...found.flatMap((entry) => carried(entry, `${kind}.sizes.${at}.size`)));
      return { label, size: values.stays };
    });
    const powers = sizes.flatMap(({ size }) => (size.power === null ? [] : [size.power]));
    if (powers.length < many) notes.push(note("no_size", `${kind}.together`, NO_SIZE_FOR_ONE));
    return { eachPower, sizes, together: powers.length < many ? null : all(powers) };
  };
  const values = {
    independent: planned("independent", Math.pow(options.power, 1 / many), (powers) =>
      powers.reduce((product, power) => product * power, 1),
    ),
    guaranteed: planned("guaranteed", 1 - (1 - options.power) / many, (powers) =>
      Math.max(0, 1 - powers.reduce((missing, power) => missing + (1 - power), 0)),
    ),
  };
  return { values, notes };
}

const NO_SIZE_FOR_ONE =
  "a criterion has no size, so that not all can be met: change that criterion, or leave it out";

/** What is said of the size that stays, at its new place. */
function carried({ code, path, message }: Note, place: string): Note[] {
  return path === "stays" || path.startsWith("stays.")
    ? [note(code, `${place}${path.slice("stays".length)}`, message)]
    : [];
}

export const jointSize = defineMethod({
  id: "planning.joint_size",
  version: 1,
  title: "People needed to meet several criteria",
  question: "How many people does each criterion need, so that all of them are met with good probability?",
  formula:
    "k criteria, power wanted for all of them P: each is planned with power P^(1/k) if they are independent, with 1 - (1 - P) / k however they hang together. All met: product of the powers; at least 1 - sum of (1 - power)",
  caution:
    "each criterion planned for 80 % is not 80 % for all: two such together have 64 % if independent. The level needs no adjustment where all must be met. The totals are of the people each criterion speaks of; the same people may count for several",
  sources: ["berger1982", "frechet1951", "flahault2005"],
  input: Input,
  options: Options,
  values: Values,
  run: sizeOfAll,
  examples: jointSizeExamples,
});
