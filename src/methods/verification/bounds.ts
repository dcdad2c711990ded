import * as v from "valibot";
import { level, proportion, proportionEstimate, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { boundsExamples } from "./bounds-examples.ts";
import { extremeCases, type Reach } from "./extreme-cases.ts";
import { byResult, cellsOf, MEASURES, type Measure, VerifiedOnly } from "./fields.ts";
import { verifiedOnly, verifiedOnlyNotes } from "./verified-only.ts";

const Input = v.strictObject(byResult);
const shareAmong = (which: string) =>
  v.pipe(
    v.optional(
      v.strictObject({
        lowest: proportion("lowest share of diseased thought possible among them"),
        highest: proportion("highest share thought possible"),
      }),
      { lowest: 0, highest: 1 },
    ),
    v.description(`share of diseased among the unverified ${which} people; anything unless stated`),
  );
const Options = v.strictObject({
  level: level(),
  method: intervalMethod(),
  unverifiedReactive: shareAmong("reactive"),
  unverifiedNonreactive: shareAmong("nonreactive"),
});
const Range = (meaning: string) =>
  v.pipe(
    v.strictObject({
      lowest: proportionEstimate("in the extreme case that makes it lowest, with the limits of chance"),
      highest: proportionEstimate("in the extreme case that makes it highest, with the limits of chance"),
      width: quantity("proportion", "highest less lowest: what is not known for want of verification"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  sensitivity: Range("P(reactive | diseased)"),
  specificity: Range("P(nonreactive | nondiseased)"),
  prevalence: Range("P(diseased), among all people tested"),
  ppv: Range("P(diseased | reactive)"),
  npv: Range("P(nondiseased | nonreactive)"),
  verifiedOnly: VerifiedOnly(),
});
export type BoundsInput = v.InferOutput<typeof Input>;
export type BoundsOptions = v.InferOutput<typeof Options>;
export type BoundsValues = v.InferOutput<typeof Values>;
type RangeValues = BoundsValues["sensitivity"];

/**
 * How good and how bad the kit may be, whatever the people who were not verified have.
 *
 * No assumption on why they were not verified. From the lower limit of the lowest value to the upper limit of
 * the highest one covers chance too: at least as surely as the interval would, had everybody been verified.
 *
 * @param input   people by result and what is known of their true state
 * @param options shares of diseased thought possible among the unverified (rounded outwards to whole people);
 *   the interval that allows for chance
 * @returns proportions in 0..1, with the counts of the extreme case; `null` with a note where it has nobody
 * Behaves badly where many were not verified: the bounds are then wide, which is what the data say.
 * Source: manski2003
 */
export function boundsOfUnverified(input: BoundsInput, options: BoundsOptions): Finding<BoundsValues> {
  const cells = cellsOf([{ label: "everybody", ...input }]);
  const extremes = extremeCases(input, {
    reactive: reachOf(input.reactive.unverified, options.unverifiedReactive, "unverifiedReactive"),
    nonreactive: reachOf(
      input.nonreactive.unverified,
      options.unverifiedNonreactive,
      "unverifiedNonreactive",
    ),
  });
  const ranges = {} as Record<Measure, RangeValues>;
  for (const measure of MEASURES) {
    const { lowest, highest } = extremes[measure];
    const low = estimateProportion(lowest.count, lowest.total, options);
    const high = estimateProportion(highest.count, highest.total, options);
    const width = low.value === null || high.value === null ? null : high.value - low.value;
    ranges[measure] = { lowest: low, highest: high, width };
  }
  const observed = verifiedOnly(cells, options.level);
  const values: BoundsValues = { ...ranges, verifiedOnly: observed.verifiedOnly };
  const absent = verifiedOnlyNotes(observed).filter(({ path }) => path.startsWith("verifiedOnly"));
  return {
    values,
    notes: [...MEASURES.flatMap((measure) => rangeNotes(measure, ranges[measure])), ...absent],
  };
}

/** Whole people, rounded outwards. */
function reachOf(
  unverified: number,
  { lowest, highest }: BoundsOptions["unverifiedReactive"],
  name: string,
): Reach {
  if (lowest > highest) {
    throw new InputError(["options", name, "lowest"], `at most the highest, ${highest}`, lowest);
  }
  const slack = 4 * Number.EPSILON;
  return {
    fewest: Math.min(unverified, Math.floor(lowest * unverified * (1 + slack))),
    most: Math.min(unverified, Math.ceil(highest * unverified * (1 - slack))),
  };
}

function rangeNotes(measure: Measure, { lowest, highest, width }: RangeValues): Note[] {
  const notes: Note[] = [];
  const message = "in this extreme case there is nobody of the kind that this counts";
  if (lowest.total === 0) notes.push(note("no_people", `${measure}.lowest`, message));
  if (highest.total === 0) notes.push(note("no_people", `${measure}.highest`, message));
  if (width === null) notes.push(note("no_people", `${measure}.width`, message));
  return notes;
}

export const verificationBounds = defineMethod({
  id: "verification.bounds",
  version: 1,
  title: "Best and worst case of the unverified",
  question: "What can be said of the kit without assuming anything about those not verified?",
  formula:
    "lowest sensitivity = D1 / (D1 + D0 + U0): no unverified reactive person is diseased, every unverified nonreactive one is; highest = (D1 + U1) / (D1 + U1 + D0), the reverse. Lowest specificity = N0 / (N0 + N1 + U1), highest = (N0 + U0) / (N0 + U0 + N1). D diseased, N nondiseased, U unverified; 1 reactive, 0 nonreactive. Limits: those of the proportion in each extreme case",
  caution:
    "the extremes are possible, not likely. The lowest sensitivity and the lowest specificity belong to one and the same case, so both may be as low together. A stated share of diseased among the unverified narrows the bounds, and is then an assumption to be named",
  sources: ["manski2003", "clopper1934"],
  input: Input,
  options: Options,
  values: Values,
  run: boundsOfUnverified,
  examples: boundsExamples,
});
