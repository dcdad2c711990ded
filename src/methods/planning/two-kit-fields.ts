import * as v from "valibot";
import { choice, openProportion, quantity } from "../../core/fields.ts";
import { whole } from "./fields.ts";

/** Options and values that the plans for comparing two kits have in common. */

/** Most people that the exact search looks at (in the first group, where there are two). */
export function searchHorizon(most: number) {
  const meaning = `most people that the exact search looks at, in the first group if there are two; null: half as many again as the formula gives (and three times those without whom nothing can be shown), at least 500, at most ${most.toLocaleString("en-GB")}`;
  return v.optional(v.nullable(whole(1, most, meaning)), null);
}

/** The two kits on the same people, and how often they differ. */
export const pairedKits = {
  first: openProportion("proportion right expected of the first kit"),
  second: openProportion("proportion right expected of the second kit"),
  discordant: v.optional(
    v.nullable(
      v.pipe(
        v.number(),
        v.minValue(0, "expected a proportion between 0 and 1"),
        v.maxValue(1, "expected a proportion between 0 and 1"),
        v.description(
          "share of people for whom exactly one of the kits is right; null: not known, the kits are taken to err independently",
        ),
      ),
    ),
    null,
  ),
};

/** Size of the second group over that of the first. */
export function groupRatio() {
  return v.optional(
    v.pipe(
      v.number(),
      v.minValue(0.01, "expected a ratio from 0.01 to 100"),
      v.maxValue(100, "expected a ratio from 0.01 to 100"),
      v.description("people in the second group for each one in the first"),
    ),
    1,
  );
}

export const margin = openProportion("how much worse the first kit may be, without a sign");

export const pairedFormula = v.pipe(
  v.strictObject({
    unrounded: quantity("people", "people by the formula, not rounded"),
    total: quantity("people", "the same rounded up"),
  }),
  v.description("large-sample formula: a first idea, not the answer"),
);

export const pairedExact = v.pipe(
  v.strictObject({
    first: quantity("people", "fewest people that reach the power"),
    stays: quantity("people", "people from which on every larger total up to the horizon reaches it"),
    power: quantity("probability", "power with so many (stays)"),
    powerBefore: quantity("probability", "power with one fewer"),
    searchedTo: quantity("people", "most people looked at"),
  }),
  v.description("power added up over all results"),
);

export const discordanceRange = v.pipe(
  v.strictObject({
    least: quantity("proportion", "the worse kit is right only where the better one is"),
    independent: quantity("proportion", "the kits err independently"),
    most: quantity("proportion", "the kits are wrong, or right, together as seldom as possible"),
    planned: quantity("proportion", "the share planned with: as stated, else the independent one"),
    firstOnly: quantity("proportion", "of it, only the first right"),
    secondOnly: quantity("proportion", "of it, only the second right"),
  }),
  v.description("share of people for whom exactly one kit is right: what the two proportions allow"),
);

export const discordanceBounds = v.pipe(
  v.array(
    v.strictObject({
      at: choice(["least", "independent", "most"], "which of the three shares"),
      discordant: quantity("proportion", "share of people for whom exactly one kit is right"),
      formulaTotal: quantity("people", "people by the formula"),
      exactStays: quantity("people", "people from which on the exact power stays reached"),
    }),
  ),
  v.description("the same plan at the least, the independent and the greatest share: how much hangs on it"),
);

export const groupsFormula = v.pipe(
  v.strictObject({
    unrounded: quantity("people", "people in the first group by the formula, not rounded"),
    perGroup: quantity("people", "people in the first group, rounded up"),
    secondGroup: quantity("people", "people in the second group"),
  }),
  v.description("large-sample formula: a first idea, not the answer"),
);

export const groupsExact = v.pipe(
  v.strictObject({
    first: quantity("people", "fewest people in the first group that reach the power"),
    stays: quantity(
      "people",
      "people in the first group from which on every larger number up to the horizon reaches it",
    ),
    secondGroup: quantity("people", "people in the second group then (stays)"),
    power: quantity("probability", "power with so many (stays)"),
    powerBefore: quantity("probability", "power with one fewer in the first group"),
    searchedTo: quantity("people", "most people in the first group looked at"),
  }),
  v.description("power added up over all results of both groups"),
);
