import * as v from "valibot";
import { defineMethod, type Finding } from "../../core/method.ts";
import { meanOf, netOf, predictiveValues, recompute } from "./at-prevalences.ts";
import { Dependence } from "./fields.ts";
import { type FollowedAlgorithm, followAlgorithm, layOut } from "./followed.ts";
import { algorithmFields, Kits, Prevalences } from "./model.ts";
import { outcomeNotes } from "./outcome-notes.ts";
import { outcomesExamples } from "./outcomes-examples.ts";
import { OutcomesValues } from "./outcomes-fields.ts";
import type { TruthOutcome } from "./path-outcomes.ts";

const Input = v.strictObject({
  kits: Kits,
  ...algorithmFields,
  dependence: Dependence(),
  prevalences: Prevalences,
  people: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(1, "expected 1 or more"),
      v.maxValue(Number.MAX_SAFE_INTEGER),
      v.description("number of people tested that expected numbers speak of"),
    ),
    100_000,
  ),
});
const Options = v.strictObject({});
export type OutcomesInput = v.InferOutput<typeof Input>;

/**
 * What a testing algorithm does with people: exactly, path by path, for diseased and nondiseased, and at each
 * prevalence.
 *
 * An invalid run is repeated at once with a new device and says nothing of other runs. Inconclusive people who
 * return go through the algorithm once more; all their runs hang together as the dependence states.
 *
 * @param input kits; steps (the first is where people start); retest; dependence; prevalences 0..1; people
 * @returns probabilities and means, not rounded; independence beside. Predictive values are `null` with a note
 *   where nobody ends with that status
 * @throws InputError where a step, kit or next step is unknown, out of reach or in a circle; for a dependence
 *   that the kits don't allow; for more runs of one person than it can be told for
 * Behaves badly where a kit's sensitivity or specificity differs between the people of different prevalences,
 * or between the first and later runs beyond what the dependence says.
 * Source: vacek1985
 */
export function algorithmOutcomes(input: OutcomesInput): Finding<OutcomesValues> {
  const { kits, steps, retest, dependence, prevalences, people } = input;
  const plan = layOut(kits, { steps, retest });
  const followed = followAlgorithm(plan, dependence);
  const alone = dependence.kind === "independent" ? followed : followAlgorithm(plan, { kind: "independent" });
  const { diseased, nondiseased } = followed;
  const values: OutcomesValues = {
    paths: pathsWith(followed, diseased.first, nondiseased.first),
    secondPass: {
      diseased: diseased.returned,
      nondiseased: nondiseased.returned,
      paths: retest === null ? [] : pathsWith(followed, diseased.second, nondiseased.second),
    },
    byTruth: { diseased: endsOf(followed, diseased), nondiseased: endsOf(followed, nondiseased) },
    net: netOf(followed),
    runsAtStep: steps.map(({ id }, at) => ({
      step: id,
      diseased: diseased.reached[at] ?? 0,
      nondiseased: nondiseased.reached[at] ?? 0,
      runsDiseased: diseased.runsAtStep[at] ?? 0,
      runsNondiseased: nondiseased.runsAtStep[at] ?? 0,
    })),
    at: recompute(followed, prevalences, people),
    independent: {
      net: netOf(alone),
      at: prevalences.map((prevalence) => ({
        prevalence,
        ...predictiveValues(alone.diseased, alone.nondiseased, prevalence),
      })),
    },
  };
  return { values, notes: outcomeNotes(plan, dependence, values) };
}

function pathsWith(
  { plan }: FollowedAlgorithm,
  diseased: readonly number[],
  nondiseased: readonly number[],
): OutcomesValues["paths"] {
  return plan.paths.map(({ parts, status }, at) => ({
    steps: parts.map(({ step, result }) => ({ step: plan.steps[step]?.id ?? "", result })),
    status,
    diseased: diseased[at] ?? 0,
    nondiseased: nondiseased[at] ?? 0,
  }));
}

function endsOf({ plan }: FollowedAlgorithm, truth: TruthOutcome): OutcomesValues["byTruth"]["diseased"] {
  const { positive, negative, inconclusive, lost } = truth;
  const runs = plan.kits.map(({ id }, kit) => {
    const all = truth.devices[kit] ?? [];
    const end = all.findLastIndex((probability) => probability > 0) + 1;
    const distribution = all.slice(0, end).map((probability, number) => ({ runs: number, probability }));
    return { kit: id, mean: meanOf(all), distribution };
  });
  return { positive, negative, inconclusive, lost, runs };
}

export const algorithmsOutcomes = defineMethod({
  id: "algorithms.outcomes",
  version: 1,
  title: "What a testing algorithm does with people",
  question: "How many people does an algorithm call rightly or wrongly, and how many devices does it use?",
  formula:
    "P(path | truth) = product over its steps of (1 - invalid^(again + 1)), or invalid^(again + 1) where the step found nothing, times the joint probability of its valid results given the truth; P(status | truth) adds up the paths. PPV = prevalence P(positive | diseased) / (that + (1 - prevalence) P(positive | nondiseased)), NPV likewise. Devices at a step: 1 + invalid + … + invalid^again for everybody who comes to it",
  caution:
    "the joint probability rests on the dependence stated; independence is seldom true and mostly makes the PPV look better than it is. Sensitivity and specificity are taken to be the same at every prevalence, and inconclusive people to return whatever their truth",
  sources: ["vacek1985", "gordis2014"],
  input: Input,
  options: Options,
  values: OutcomesValues,
  run: algorithmOutcomes,
  examples: outcomesExamples,
});
