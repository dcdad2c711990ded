import * as v from "valibot";
import { Day, Name, Share, Words } from "./plain-fields.ts";

/** What is believed of a share, and how far it might be otherwise. */
const Believed = (meaning: string) =>
  v.pipe(
    v.strictObject({
      believed: v.pipe(Share, v.description("the best guess")),
      from: v.pipe(Share, v.description("lowest value thought possible")),
      to: v.pipe(Share, v.description("highest value thought possible")),
    }),
    v.check(
      ({ believed, from, to }) => from <= believed && believed <= to,
      "expected from not above believed, and believed not above to",
    ),
    v.description(meaning),
  );

const Covariance = v.pipe(
  v.number(),
  v.minValue(-0.25, "expected a covariance between -0.25 and 0.25"),
  v.maxValue(0.25, "expected a covariance between -0.25 and 0.25"),
);
const Together = (meaning: string) =>
  v.pipe(
    v.strictObject({
      diseased: v.pipe(Covariance, v.description("among people with the condition; 0: independent")),
      nondiseased: v.pipe(Covariance, v.description("among people without it; 0: independent")),
    }),
    v.description(meaning),
  );

const ReferenceTest = v.strictObject({
  title: v.pipe(Words, v.description("one of the two tests that make the reference")),
  sensitivity: Share,
  specificity: Share,
});

/** A reference made of two tests, both done in everybody. */
const Composite = v.strictObject({
  rule: v.pipe(
    v.picklist(["any_positive", "both_positive"]),
    v.description("any_positive: one positive test is enough; both_positive: both must be"),
  ),
  tests: v.pipe(
    v.array(ReferenceTest),
    v.length(2, "expected two tests"),
    v.description("the two tests, both done in everybody"),
  ),
  covariance: Together(
    "how the two tests err together: independence is an assumption, so it has to be stated",
  ),
});

/** What is believed of the reference itself: by two ranges, or as a reference made of two tests. */
export const ReferenceErrors = v.pipe(
  v.strictObject({
    sensitivity: v.optional(Believed("share of people with the condition whom the reference finds")),
    specificity: v.optional(Believed("share of people without it whom the reference calls negative")),
    composite: v.optional(
      v.pipe(
        Composite,
        v.description("instead of sensitivity and specificity: a reference made of two tests"),
      ),
    ),
    covariance: Together(
      "how kit and reference err together: independence is an assumption, so it has to be stated",
    ),
    source: v.pipe(Words, v.description("where the figures come from")),
    entered_on: v.optional(v.pipe(Day, v.description("day on which they were written down"))),
  }),
  v.check(
    ({ sensitivity, specificity, composite }) =>
      composite === undefined
        ? sensitivity !== undefined && specificity !== undefined
        : sensitivity === undefined && specificity === undefined,
    "expected either sensitivity and specificity, or composite",
  ),
);
export type ReferenceErrors = v.InferOutput<typeof ReferenceErrors>;

const OddsRatio = v.pipe(
  v.number(),
  v.minValue(0.001, "expected 0.001 or more"),
  v.maxValue(1000, "expected at most 1,000"),
);

/** What decided who got the reference test. */
export const Verification = v.strictObject({
  strata: v.optional(
    v.pipe(
      v.array(Name),
      v.description("strata of this file that decide, besides the kit's result, who is verified"),
    ),
    [],
  ),
  odds_ratio: v.pipe(
    v.strictObject({
      from: v.pipe(OddsRatio, v.maxValue(1, "expected at most 1")),
      to: v.pipe(OddsRatio, v.minValue(1, "expected 1 or more")),
    }),
    v.description(
      "how far verification may hang on the condition itself: odds of being verified with it over without it",
    ),
  ),
});
export type Verification = v.InferOutput<typeof Verification>;
