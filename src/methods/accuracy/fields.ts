import * as v from "valibot";
import { choice, count } from "../../core/fields.ts";
import { DIFFERENCE_METHODS } from "../proportion/difference-interval.ts";
import { RATIO_METHODS } from "../proportion/ratio-interval.ts";

/** The four cells: people, not lines or readings. */
export const fourCounts = {
  truePositives: count("people: test reactive, reference positive"),
  falsePositives: count("people: test reactive, reference negative"),
  falseNegatives: count("people: test non-reactive, reference positive"),
  trueNegatives: count("people: test non-reactive, reference negative"),
};

export interface FourCounts {
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
}

export function ratioMethod() {
  return v.optional(choice(RATIO_METHODS, "kind of interval of a ratio of proportions"), "log");
}

export function differenceMethod() {
  return v.optional(
    choice(DIFFERENCE_METHODS, "kind of interval of a difference of proportions"),
    "newcombe",
  );
}
