import * as v from "valibot";
import { estimate, level, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { predictiveMethod, requireParts, studyCounts } from "./fields.ts";
import { predictiveInterval } from "./predictive-interval.ts";

const Input = v.strictObject({
  ...studyCounts,
  prevalence: proportion("prevalence where the test is to be used"),
});
const Options = v.strictObject({ method: predictiveMethod(), level: level() });
const Values = v.strictObject({
  ppv: estimate("proportion", "P(condition present | reactive) at this prevalence"),
  npv: estimate("proportion", "P(condition absent | non-reactive) at this prevalence"),
  centre: v.pipe(
    v.strictObject({
      ppv: quantity("proportion", "the PPV its interval is built around"),
      npv: quantity("proportion", "the NPV its interval is built around"),
    }),
    v.description("differs from the value only for adjusted intervals"),
  ),
});
export type AtPrevalenceInput = v.InferOutput<typeof Input>;
export type AtPrevalenceOptions = v.InferOutput<typeof Options>;
export type AtPrevalenceValues = v.InferOutput<typeof Values>;

/**
 * Predictive values at a stated prevalence, from a study's sensitivity and specificity.
 *
 * @param input   the study's counts of people, and the prevalence in 0..1, taken as known
 * @param options logit (default), adjusted_logit, or standard (plain delta method, for teaching)
 * @returns values in 0..1; `null` with a note where the study has nobody of a kind
 * Source: mercaldo2007
 */
export function predictiveAtPrevalence(
  input: AtPrevalenceInput,
  options: AtPrevalenceOptions,
): Finding<AtPrevalenceValues> {
  requireParts(input);
  const { notes, ...values } = predictiveInterval(input, input.prevalence, options.method, options.level);
  return { values, notes };
}

export const atPrevalence = defineMethod({
  id: "predictive.at_prevalence",
  version: 1,
  title: "Predictive values at a stated prevalence",
  question: "How far can a reactive, or a non-reactive, result be trusted in this programme?",
  formula:
    "PPV = p Se / (p Se + (1 - p)(1 - Sp)); NPV = (1 - p) Sp / ((1 - p) Sp + p (1 - Se)). Logit limits: logit PPV ± z sqrt((1 - Se)/(Se n1) + Sp/((1 - Sp) n0)), logit NPV ± z sqrt(Se/((1 - Se) n1) + (1 - Sp)/(Sp n0)); adjusted: z²/2 people added to each kind of result",
  caution:
    "holds only at the prevalence stated, which is taken as known, and only if sensitivity and specificity are the same there. For an uncertain prevalence use predictive.uncertain_prevalence",
  sources: ["mercaldo2007"],
  input: Input,
  options: Options,
  values: Values,
  run: predictiveAtPrevalence,
  examples: [
    {
      name: "240 of 418 and 288 of 375 at 3 %",
      input: { truePositives: 240, positives: 418, trueNegatives: 288, negatives: 375, prevalence: 0.03 },
      expect: {
        "ppv.value": 0.0710993700595813,
        "ppv.lower": 0.0588709728820018,
        "ppv.upper": 0.0856366656598168,
        "npv.value": 0.983140388657611,
        "npv.lower": 0.980948791030045,
        "npv.upper": 0.985083704704391,
      },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: delta method on the logit scale",
      memory: true,
    },
    {
      name: "the same, adjusted",
      input: { truePositives: 240, positives: 418, trueNegatives: 288, negatives: 375, prevalence: 0.03 },
      options: { method: "adjusted_logit" },
      expect: {
        "centre.ppv": 0.0702571719468193,
        "ppv.lower": 0.0582865882359198,
        "ppv.upper": 0.0844657016375868,
        "centre.npv": 0.983055155792212,
        "npv.lower": 0.980862612868115,
        "npv.upper": 0.985000343601293,
      },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: delta method on the logit scale",
      memory: true,
    },
    {
      name: "198 of 200 and 392 of 400 at 1 %: two reactive results in three are false",
      input: { truePositives: 198, positives: 200, trueNegatives: 392, negatives: 400, prevalence: 0.01 },
      expect: { "ppv.value": 0.333333333333333 },
      tolerance: { relative: 1e-12 },
      source: "no publication: .01 × .99 / (.01 × .99 + .99 × .02)",
    },
    {
      name: "no false positive among 100: the limit is adjusted",
      input: { truePositives: 90, positives: 100, trueNegatives: 100, negatives: 100, prevalence: 0.02 },
      expect: {
        "ppv.value": 1,
        "ppv.lower": 0.193662861936467,
        "ppv.upper": 1,
        "npv.lower": 0.995941965121066,
        "npv.upper": 0.998603632115305,
      },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: delta method on the logit scale with z²/2 added to each kind of result",
      memory: true,
    },
  ],
});
