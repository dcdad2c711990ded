import * as v from "valibot";
import { count, estimate, level, proportionEstimate, quantity, seed } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import {
  AreaValues,
  curveRange,
  curveRanges,
  reading,
  readingDirection,
  readingsByTruth,
} from "./readings-fields.ts";

export const CurveInput = v.strictObject({ ...readingsByTruth, direction: readingDirection() });

export const CurveOptions = v.strictObject({
  level: level(),
  truncate: v.optional(
    v.pipe(
      v.boolean(),
      v.description("cut Wald limits to 0..1; false leaves them as the formula gives them"),
    ),
    true,
  ),
  points: v.optional(whole(10, 2000, "most points of the curve that are returned"), 500),
  ranges: curveRanges(),
  replicates: v.optional(
    whole(0, 100_000, "times that people are drawn anew, within each group; 0: not at all"),
    0,
  ),
  seed: seed(1),
});

const Drawn = v.strictObject({
  area: estimate("probability", "area with percentile limits"),
  standardError: quantity("probability", "standard deviation of the replicates"),
  monteCarloError: quantity(
    "probability",
    "the larger of the standard errors of the two limits: what another seed would change",
  ),
  ranges: v.pipe(
    v.array(
      v.strictObject({
        area: estimate("probability", "partial area with percentile limits"),
        standardised: estimate("probability", "the same, standardised"),
        standardError: quantity("probability", "standard deviation of the replicates of the partial area"),
      }),
    ),
    v.description("one entry per range, same order as `ranges`"),
  ),
});

export const CurveValues = v.strictObject({
  positives: count("people with the condition"),
  negatives: count("people without the condition"),
  cutoffs: count("different readings, each of them a possible cutoff"),
  area: AreaValues,
  rankSum: v.pipe(
    v.strictObject({
      u: quantity(
        "statistic",
        "pairs in which the person with the condition lies beyond, ties half (Mann-Whitney U)",
      ),
      z: quantity(
        "statistic",
        "its distance from half of all pairs in standard deviations, ties allowed for",
      ),
      p: quantity("probability", "two-sided p-value of no difference, by the normal distribution"),
    }),
    v.description("test that the readings say nothing"),
  ),
  points: v.pipe(
    v.array(
      v.strictObject({
        cutoff: reading("reactive is a reading here or beyond"),
        sensitivity: proportionEstimate("with exact limits that hold for this cutoff alone"),
        specificity: proportionEstimate("with exact limits that hold for this cutoff alone"),
      }),
    ),
    v.description(
      "from the cutoff that calls the fewest people reactive to the one that calls all; where there are too many, those on the convex hull and others evenly between",
    ),
  ),
  band: v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "half-width for the sensitivity"),
      specificity: quantity("proportion", "half-width for the specificity"),
    }),
    v.description("both hold for all cutoffs together, with the level asked"),
  ),
  ranges: v.pipe(
    v.array(
      v.strictObject({
        range: curveRange(),
        area: quantity(
          "probability",
          "area of this part: sensitivity over the range of specificity, or the other way",
        ),
        least: quantity("probability", "the same of a test that says nothing"),
        most: quantity("probability", "the same of a perfect test"),
        standardised: quantity("probability", "0.5 where the test says nothing, 1 where it is perfect"),
      }),
    ),
    v.description("one entry per range asked, same order"),
  ),
  drawn: v.pipe(v.nullable(Drawn), v.description("by drawing people anew; null where not asked")),
});

export type CurveInput = v.InferOutput<typeof CurveInput>;
export type CurveOptions = v.InferOutput<typeof CurveOptions>;
export type CurveValues = v.InferOutput<typeof CurveValues>;
