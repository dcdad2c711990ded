import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { type JointResults, jointResultsOf, noPhiNotes } from "./joint-results.ts";
import { jointResults, kitAccuracy, type TwoKitDependence, twoKitDependence } from "./two-kits-fields.ts";

const Input = v.strictObject({
  first: kitAccuracy("the first kit"),
  second: kitAccuracy("the second kit"),
  dependence: twoKitDependence(),
  prevalences: v.pipe(
    v.array(proportion("prevalence")),
    v.minLength(1, "expected one prevalence or more"),
    v.maxLength(1001, "expected at most 1001 prevalences"),
    v.description("prevalences at which predictive values are wanted"),
  ),
});
const Options = v.strictObject({});
const Rule = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "P(positive | condition present)"),
      specificity: quantity("proportion", "P(negative | condition absent)"),
      at: v.pipe(
        v.array(
          v.strictObject({
            prevalence: proportion("prevalence"),
            ppv: quantity("proportion", "P(condition present | positive)"),
            npv: quantity("proportion", "P(condition absent | negative)"),
          }),
        ),
        v.description("one entry per prevalence asked, same order"),
      ),
    }),
    v.description(meaning),
  );
const Rules = {
  serial: Rule("positive only if both are reactive"),
  parallel: Rule("positive if either is reactive"),
};
const Values = v.strictObject({
  ...Rules,
  independent: v.pipe(v.strictObject(Rules), v.description("the same if the results were independent")),
  diseased: jointResults("both results among people with the condition"),
  nondiseased: jointResults("both results among people without the condition"),
});
export type TwoTestsInput = v.InferOutput<typeof Input>;
export type TwoTestsOptions = v.InferOutput<typeof Options>;
export type TwoTestsValues = v.InferOutput<typeof Values>;
type RuleValues = TwoTestsValues["serial"];

/**
 * Sensitivity, specificity and predictive values of two kits together, when their results hang together.
 *
 * Serial: positive only if both are reactive. Parallel: positive if either is. A run of a kit twice is no
 * second kit: its results hang together more.
 *
 * @param input accuracies in 0..1; dependence among people of the same truth, as covariance or phi
 * @returns proportions in 0..1; a predictive value is `null` with a note where nobody has that result, phi
 *   where a result never varies
 * @throws InputError at `input.dependence`, with the bounds, where the kits' accuracies don't allow it
 * Behaves badly where the dependence is a guess: look at both ends of what is thinkable.
 * Source: vacek1985
 */
export function twoTestsTogether(input: TwoTestsInput, _options: TwoTestsOptions): Finding<TwoTestsValues> {
  const { first, second, dependence, prevalences } = input;
  const among = (stated: TwoKitDependence) => ({
    diseased: jointResultsOf({ first: first.sensitivity, second: second.sensitivity }, stated, "diseased"),
    nondiseased: jointResultsOf(
      { first: 1 - first.specificity, second: 1 - second.specificity },
      stated,
      "nondiseased",
    ),
  });
  const asStated = among(dependence);
  const values = {
    ...rulesOf(asStated, prevalences),
    independent: rulesOf(among({ kind: "independent" }), prevalences),
    ...asStated,
  };
  return { values, notes: notesOn(values) };
}

interface BothTruths {
  readonly diseased: JointResults;
  readonly nondiseased: JointResults;
}

function rulesOf({ diseased, nondiseased }: BothTruths, prevalences: readonly number[]) {
  const missedByEither = diseased.firstOnly + diseased.secondOnly + diseased.neither;
  const falseByEither = nondiseased.bothReactive + nondiseased.firstOnly + nondiseased.secondOnly;
  return {
    serial: ruleOf(
      { right: diseased.bothReactive, wrong: missedByEither },
      { right: 1 - nondiseased.bothReactive, wrong: nondiseased.bothReactive },
      prevalences,
    ),
    parallel: ruleOf(
      { right: 1 - diseased.neither, wrong: diseased.neither },
      { right: nondiseased.neither, wrong: falseByEither },
      prevalences,
    ),
  };
}

interface Shares {
  readonly right: number;
  readonly wrong: number;
}

/** Wrong shares are kept beside the right ones: a small one keeps its digits. */
function ruleOf(diseased: Shares, nondiseased: Shares, prevalences: readonly number[]): RuleValues {
  return {
    sensitivity: diseased.right,
    specificity: nondiseased.right,
    at: prevalences.map((prevalence) => {
      const truePositive = prevalence * diseased.right;
      const positive = truePositive + (1 - prevalence) * nondiseased.wrong;
      const trueNegative = (1 - prevalence) * nondiseased.right;
      const negative = trueNegative + prevalence * diseased.wrong;
      return {
        prevalence,
        ppv: positive > 0 ? truePositive / positive : null,
        npv: negative > 0 ? trueNegative / negative : null,
      };
    }),
  };
}

function notesOn(values: TwoTestsValues): Note[] {
  const rules = { serial: values.serial, parallel: values.parallel };
  const independent = {
    "independent.serial": values.independent.serial,
    "independent.parallel": values.independent.parallel,
  };
  const notes = Object.entries({ ...rules, ...independent }).flatMap(([name, rule]) =>
    rule.at.flatMap(({ ppv, npv }, index) => [
      ...(ppv === null ? [note("nobody", `${name}.at.${index}.ppv`, "nobody is positive here")] : []),
      ...(npv === null ? [note("nobody", `${name}.at.${index}.npv`, "nobody is negative here")] : []),
    ]),
  );
  for (const truth of ["diseased", "nondiseased"] as const) {
    if (values[truth].phi === null) notes.push(...noPhiNotes(truth));
  }
  return notes;
}

const KITS = {
  first: { sensitivity: 0.92, specificity: 0.96 },
  second: { sensitivity: 0.8, specificity: 0.99 },
};

export const twoTests = defineMethod({
  id: "algorithms.two_tests",
  version: 1,
  title: "Two tests together",
  question: "What do two kits find and miss together, if their errors go together?",
  formula:
    "serial: sensitivity Se1 Se2 + cov+, specificity 1 - (1 - Sp1)(1 - Sp2) - cov-. Parallel: sensitivity 1 - (1 - Se1)(1 - Se2) - cov+, specificity Sp1 Sp2 + cov-. cov = phi sqrt(p (1 - p) q (1 - q)); it lies between -min(p q, (1 - p)(1 - q)) and min(p (1 - q), q (1 - p)). PPV and NPV by Bayes' rule",
  caution:
    "false positives that both kits share make a second reactive result worth less than independence says, and the more so the rarer the condition. The dependence has to be measured (algorithms.observed_dependence) or looked at over a range. No run is invalid here: for repeats and inconclusive results use algorithms.outcomes",
  sources: ["vacek1985", "frechet1951"],
  input: Input,
  options: Options,
  values: Values,
  run: twoTestsTogether,
  examples: [
    {
      name: "92 / 96 % and 80 / 99 %, covariances .04 and .004",
      input: {
        ...KITS,
        dependence: { kind: "covariance", diseased: 0.04, nondiseased: 0.004 },
        prevalences: [0.1],
      },
      expect: {
        "serial.sensitivity": 0.776,
        "serial.specificity": 0.9956,
        "parallel.sensitivity": 0.944,
        "parallel.specificity": 0.9544,
      },
      tolerance: { relative: 1e-12 },
      source: "vacek1985",
      recomputedBy: "R 4.2.2: the closed forms",
      memory: true,
    },
    {
      name: "two kits of 99 / 98 % at 5 %: 99.2 % believed, 95.6 % true at an error correlation of .1",
      input: {
        first: { sensitivity: 0.99, specificity: 0.98 },
        second: { sensitivity: 0.99, specificity: 0.98 },
        dependence: { kind: "phi", diseased: 0.1, nondiseased: 0.1 },
        prevalences: [0.05],
      },
      expect: {
        "serial.at.0.ppv": 0.9563,
        "independent.serial.at.0.ppv": 0.9923,
      },
      tolerance: { decimals: 4 },
      source: "vacek1985",
      recomputedBy: "R 4.2.2: the four joint probabilities of each truth",
      memory: true,
    },
  ],
});
