import * as v from "valibot";
import { choice, count, proportion, quantity } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import { reading, readingList, readingsByTruth } from "./readings-fields.ts";

export const IntensityInput = v.strictObject({
  ...readingsByTruth,
  minutes: v.pipe(
    v.nullable(
      v.strictObject({
        positives: readingList("minutes after the timed step, one per reading of `positives`, same order"),
        negatives: readingList("minutes after the timed step, one per reading of `negatives`, same order"),
        edges: v.pipe(
          v.array(reading("minutes")),
          v.minLength(2, "expected two edges or more"),
          v.maxLength(61, "expected at most 61 edges"),
          v.description(
            "edges of the bands, rising; a band holds its lower edge, the last one its upper edge too",
          ),
        ),
      }),
    ),
    v.description("when each device was read; null if not known"),
  ),
});

export const IntensityOptions = v.strictObject({
  bins: v.optional(
    v.pipe(
      v.nullable(whole(2, 200, "bars of the histogram")),
      v.description(
        "null: as wide as twice the interquartile range over the cube root of the readings, 5 to 60",
      ),
    ),
    null,
  ),
});

const truth = () => choice(["positive", "negative"], "people with the condition, or without");
const Quantiles = {
  lowest: quantity("statistic", "lowest reading"),
  p05: quantity("statistic", "5 in 100 lie below"),
  p25: quantity("statistic", "lower quartile"),
  median: quantity("statistic", "median"),
  p75: quantity("statistic", "upper quartile"),
  p95: quantity("statistic", "95 in 100 lie below"),
  highest: quantity("statistic", "highest reading"),
};

export const IntensityValues = v.strictObject({
  groups: v.pipe(
    v.array(
      v.strictObject({
        truth: truth(),
        readings: count("readings"),
        ...Quantiles,
        mean: quantity("statistic", "mean"),
        standardDeviation: quantity("statistic", "standard deviation"),
      }),
    ),
    v.description("people with the condition, then without"),
  ),
  histogram: v.pipe(
    v.array(
      v.strictObject({
        from: reading("lower edge, which the bar holds"),
        to: reading("upper edge, which only the last bar holds"),
        positives: count("people with the condition"),
        negatives: count("people without the condition"),
      }),
    ),
    v.description("bars of equal width over all readings"),
  ),
  overlap: quantity(
    "proportion",
    "share of the two histograms that is common; hangs on the width of the bars",
  ),
  largestGap: quantity(
    "proportion",
    "largest distance of the two cumulative distributions (Kolmogorov and Smirnov): the best Youden index in either direction",
  ),
  bands: v.pipe(
    v.array(
      v.strictObject({
        truth: truth(),
        from: reading("minutes, lower edge"),
        to: reading("minutes, upper edge"),
        readings: count("readings"),
        p25: quantity("statistic", "lower quartile"),
        median: quantity("statistic", "median"),
        p75: quantity("statistic", "upper quartile"),
      }),
    ),
    v.description(
      "bands of minutes: people with the condition, then without; empty where minutes are not known",
    ),
  ),
  outsideBands: proportion("share of readings at minutes outside all bands; 0 where minutes are not known"),
});

export type IntensityInput = v.InferOutput<typeof IntensityInput>;
export type IntensityOptions = v.InferOutput<typeof IntensityOptions>;
export type IntensityValues = v.InferOutput<typeof IntensityValues>;
