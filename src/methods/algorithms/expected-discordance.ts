import * as v from "valibot";
import {
  count,
  draws,
  level,
  openProportion,
  proportion,
  proportionEstimate,
  quantity,
  seed,
} from "../../core/fields.ts";
import { twoKitDependence } from "./two-kits-fields.ts";

const shape = (meaning: string) =>
  v.pipe(
    v.number(),
    v.gtValue(0, "expected a number above 0"),
    v.maxValue(1e9, "expected at most 1e9"),
    v.description(meaning),
  );
const Known = (meaning: string) =>
  v.pipe(
    v.variant("kind", [
      v.strictObject({ kind: v.literal("value"), value: proportion(meaning) }),
      v.strictObject({
        kind: v.literal("counts"),
        right: count("right results in a study"),
        total: count("people of that truth in the study"),
      }),
      v.strictObject({
        kind: v.literal("beta"),
        a: shape("first parameter of a beta distribution"),
        b: shape("second parameter"),
      }),
    ]),
    v.description(`${meaning}; counts stand for a beta distribution with Jeffreys prior`),
  );
const Kit = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: Known("P(reactive | condition present)"),
      specificity: Known("P(non-reactive | condition absent)"),
    }),
    v.description(meaning),
  );
const Input = v.strictObject({
  first: Kit("the kit that everybody is tested with"),
  second: Kit("the kit that those reactive with the first are tested with"),
  dependence: twoKitDependence(),
  prevalence: openProportion("prevalence among those tested"),
  observed: v.pipe(
    v.nullable(
      v.strictObject({
        tested: count("people tested with the first kit"),
        firstReactive: count("of these reactive with it, and then tested with the second"),
        secondNonreactive: count("of these non-reactive with the second"),
      }),
    ),
    v.description("what was seen; null to know only what to expect"),
  ),
});
const Options = v.strictObject({
  level: level(),
  draws: draws("draws of the kits' accuracy, where it is uncertain", 10_000, 1_000_000),
  seed: seed(1),
});
const Judged = (meaning: string) =>
  v.pipe(
    v.nullable(
      v.strictObject({
        share: proportionEstimate("share seen, exact interval"),
        lower: quantity("count", "fewest to be expected at this level"),
        upper: quantity("count", "most to be expected at this level"),
        twoSided: quantity("probability", "p-value: a count as improbable as the one seen, either way"),
        asMany: quantity("probability", "probability of so many or more"),
        asFew: quantity("probability", "probability of so few or fewer"),
      }),
    ),
    v.description(meaning),
  );
const Share = (meaning: string) =>
  v.pipe(
    v.strictObject({
      value: quantity("proportion", "with every kit at its centre"),
      lower: quantity("proportion", "lower limit from what is uncertain about the kits"),
      upper: quantity("proportion", "upper limit from what is uncertain about the kits"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  firstReactive: Share("share reactive with the first kit, of all tested"),
  discordant: Share("share non-reactive with the second, of those reactive with the first"),
  ifIndependent: quantity("proportion", "the same if the results were independent, every kit at its centre"),
  diseasedAmongDiscordant: quantity("proportion", "share with the condition among the discordant"),
  positivity: Judged("the people reactive with the first kit, against what was to be expected"),
  discordance: Judged("the discordant people, against what was to be expected"),
});
export type ExpectedDiscordanceInput = v.InferOutput<typeof Input>;
export type ExpectedDiscordanceOptions = v.InferOutput<typeof Options>;
export type ExpectedDiscordanceValues = v.InferOutput<typeof Values>;
