import * as v from "valibot";
import { choice, level, openProportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { requireParts, studyCounts } from "./fields.ts";
import { adjustedRates, isExtreme, ppvVariance, type Rates, ratesOf } from "./predictive-interval.ts";

const Input = v.strictObject({
  ...studyCounts,
  target: openProportion("the positive predictive value wanted"),
});
const Options = v.strictObject({
  method: v.optional(choice(["logit", "adjusted_logit"], "kind of interval of the PPV"), "logit"),
  level: level(),
});
const Values = v.strictObject({
  atEstimate: quantity("proportion", "lowest prevalence at which the estimated PPV reaches the target"),
  atLowerLimit: quantity("proportion", "lowest prevalence at which the PPV's lower limit reaches it"),
});
export type LowestPrevalenceInput = v.InferOutput<typeof Input>;
export type LowestPrevalenceOptions = v.InferOutput<typeof Options>;
export type LowestPrevalenceValues = v.InferOutput<typeof Values>;

/**
 * The inverse of the predictive value: down to which prevalence can reactive results be trusted so far?
 *
 * @param input   the study's counts of people; target in (0, 1)
 * @returns prevalences in 0..1. 0 where no false positive was seen (`any_prevalence`); `null` where
 *   nobody was reactive (`never`) or the study has nobody of a kind (`no_observations`)
 * Source: mercaldo2007, solved for the prevalence: the logit interval of the PPV has the same width at
 *   every prevalence
 */
export function lowestPrevalenceFor(
  input: LowestPrevalenceInput,
  options: LowestPrevalenceOptions,
): Finding<LowestPrevalenceValues> {
  requireParts(input);
  if (input.positives === 0 || input.negatives === 0) {
    const message = "the study has nobody of one reference status";
    return refused(
      note("no_observations", "atEstimate", message),
      note("no_observations", "atLowerLimit", message),
    );
  }
  const observed = ratesOf(input);
  if (observed.sensitivity === 0) {
    const message = "no true positive was seen: no prevalence reaches the target";
    return refused(note("never", "atEstimate", message), note("never", "atLowerLimit", message));
  }
  const z = normalQuantile((1 - options.level) / 2, "upper");
  const extreme = isExtreme(observed);
  const adjusted = extreme || options.method === "adjusted_logit";
  const rates = adjusted ? adjustedRates(input, z) : observed;
  const notes: Note[] = [];
  if (observed.specificity === 1) {
    notes.push(
      note("any_prevalence", "atEstimate", "no false positive was seen: the estimate is 1 everywhere"),
    );
  }
  if (extreme && options.method === "logit") {
    const message =
      "the study saw only right, or only wrong, results of a kind: adjusted logit limit instead";
    notes.push(note("adjusted_logit", "atLowerLimit", message));
  }
  return {
    values: {
      atEstimate: prevalenceFor(input.target, observed, 0),
      atLowerLimit: prevalenceFor(input.target, rates, z * Math.sqrt(ppvVariance(rates))),
    },
    notes,
  };
}

/** Solves logit PPV - reach = logit target for the prevalence. */
function prevalenceFor(target: number, { sensitivity, specificity }: Rates, reach: number): number {
  const oddsNeeded = ((target / (1 - target)) * (1 - specificity) * Math.exp(reach)) / sensitivity;
  return oddsNeeded === Number.POSITIVE_INFINITY ? 1 : oddsNeeded / (1 + oddsNeeded);
}

function refused(...notes: Note[]): Finding<LowestPrevalenceValues> {
  return { values: { atEstimate: null, atLowerLimit: null }, notes };
}

export const lowestPrevalence = defineMethod({
  id: "predictive.lowest_prevalence",
  version: 1,
  title: "Lowest prevalence for a predictive value",
  question: "Down to which prevalence does a reactive result keep the predictive value wanted?",
  formula:
    "odds of the prevalence = odds of the target × (1 - Sp) / Se; by the lower limit: × exp(z sqrt((1 - Se)/(Se n1) + Sp/((1 - Sp) n0)))",
  caution:
    "one test, one use: a second test after a reactive first one is another question. The limit supposes the same sensitivity and specificity at that prevalence",
  sources: ["mercaldo2007"],
  input: Input,
  options: Options,
  values: Values,
  run: lowestPrevalenceFor,
  examples: [
    {
      name: "96 of 104 and 192 of 196: back from the PPV at 1 %",
      input: { truePositives: 96, positives: 104, trueNegatives: 192, negatives: 196, target: 0.3136 },
      expect: { atEstimate: 0.01 },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: Bayes' rule",
      memory: true,
    },
    {
      name: "and back from its lower limit at 1 %",
      input: {
        truePositives: 96,
        positives: 104,
        trueNegatives: 192,
        negatives: 196,
        target: 0.147435465078124,
      },
      expect: { atLowerLimit: 0.01 },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: delta method on the logit scale",
      memory: true,
    },
  ],
});
