import * as v from "valibot";
import { count, estimate, level, text } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { ratioInterval } from "../proportion/ratio-interval.ts";
import { ratioMethod } from "./fields.ts";
import { plain, ratioNotes } from "./ratios.ts";

const Input = v.strictObject({
  levels: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the result level"),
        positives: count("reference-positive people with this result"),
        negatives: count("reference-negative people with this result"),
      }),
    ),
    v.minLength(2, "expected at least two levels"),
    v.description("every result level of the test, one entry each, in their order"),
  ),
});
const Options = v.strictObject({ level: level(), ratioInterval: ratioMethod() });
const Values = v.strictObject({
  levels: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the result level"),
        likelihoodRatio: estimate("ratio", "P(this result | condition present) / P(this result | absent)"),
      }),
    ),
    v.description("one entry per level, in the order given"),
  ),
});
export type LevelLikelihoodRatiosInput = v.InferOutput<typeof Input>;
export type LevelLikelihoodRatiosOptions = v.InferOutput<typeof Options>;
export type LevelLikelihoodRatiosValues = v.InferOutput<typeof Values>;

/**
 * The likelihood ratio of each level of a result that has more than two: line absent, faint, clear.
 *
 * @returns ratios in 0..infinity; an infinite one is `null` with the note `unbounded` and a lower
 *   limit by the score method; 0 divided by 0 is `null` with the note `not_estimable`
 * Sources: jaeschke1994, simel1991
 */
export function likelihoodRatiosByLevel(
  { levels }: LevelLikelihoodRatiosInput,
  options: LevelLikelihoodRatiosOptions,
): Finding<LevelLikelihoodRatiosValues> {
  const positives = levels.reduce((sum, entry) => sum + entry.positives, 0);
  const negatives = levels.reduce((sum, entry) => sum + entry.negatives, 0);
  const ratios = levels.map((entry) =>
    ratioInterval(
      { count: entry.positives, total: positives },
      { count: entry.negatives, total: negatives },
      options.ratioInterval,
      options.level,
    ),
  );
  return {
    values: {
      levels: ratios.map((ratio, index) => ({
        label: levels[index]?.label ?? "",
        likelihoodRatio: plain(ratio),
      })),
    },
    notes: ratios.flatMap((ratio, index) =>
      ratioNotes(`levels.${index}.likelihoodRatio`, ratio, options.ratioInterval),
    ),
  };
}

export const levelLikelihoodRatios = defineMethod({
  id: "accuracy.level_likelihood_ratios",
  version: 1,
  title: "Likelihood ratios of several result levels",
  question: "How much does each level of the result speak for the condition?",
  formula:
    "LR(level) = (positives at the level / all positives) / (negatives at the level / all negatives); limits: exp(log LR ± z sqrt(1/a - 1/n + 1/b - 1/m))",
  caution: "levels must be fixed before the data are seen; a level with few people has a wide interval",
  sources: ["jaeschke1994", "simel1991", "koopman1984"],
  input: Input,
  options: Options,
  values: Values,
  run: likelihoodRatiosByLevel,
  examples: [
    {
      name: "lung scan: four levels",
      input: {
        levels: [
          { label: "high", positives: 102, negatives: 14 },
          { label: "intermediate", positives: 105, negatives: 217 },
          { label: "low", positives: 39, negatives: 273 },
          { label: "normal", positives: 5, negatives: 126 },
        ],
      },
      expect: {
        "levels.0.likelihoodRatio.value": 18.2868525896414,
        "levels.0.likelihoodRatio.lower": 10.6660258957305,
        "levels.0.likelihoodRatio.upper": 31.3527250828386,
        "levels.1.likelihoodRatio.value": 1.21449685130446,
        "levels.2.likelihoodRatio.value": 0.358565737051793,
        "levels.3.likelihoodRatio.value": 0.099601593625498,
        "levels.3.likelihoodRatio.upper": 0.240535629169096,
      },
      tolerance: { relative: 1e-8 },
      source: "jaeschke1994",
      recomputedBy: "R 4.2.2: closed forms",
      memory: true,
    },
    {
      name: "a level that no reference-negative person has",
      input: {
        levels: [
          { label: "clear", positives: 45, negatives: 0 },
          { label: "absent", positives: 5, negatives: 100 },
        ],
      },
      expect: {
        "levels.0.likelihoodRatio.value": null,
        "levels.0.likelihoodRatio.lower": 24.3203596044539,
        "levels.0.likelihoodRatio.upper": null,
      },
      tolerance: { relative: 1e-8 },
      source: "koopman1984",
      recomputedBy: "R 4.2.2: score chi-square solved by uniroot",
      memory: true,
    },
  ],
});
