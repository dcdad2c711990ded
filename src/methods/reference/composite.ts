import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { compute, defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { cellsOf } from "../algorithms/joint-results.ts";
import { twoKitDependence } from "../algorithms/two-kits-fields.ts";
import { twoTests } from "../algorithms/two-tests.ts";
import { apparentAgainst } from "./apparent-accuracy.ts";
import { compositeExamples } from "./composite-examples.ts";
import { type KnownAccuracy, knownAccuracy } from "./known-errors-fields.ts";

const Input = v.strictObject({
  kit: knownAccuracy("what the kit truly gets right"),
  first: knownAccuracy("the first reference test"),
  second: knownAccuracy("the second reference test, done in everybody"),
  dependence: twoKitDependence(),
  prevalence: proportion("share of people with the condition"),
});
const Options = v.strictObject({});
const Judged = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "of the reference itself"),
      specificity: quantity("proportion", "of the reference itself"),
      apparentSensitivity: quantity("proportion", "P(kit reactive | this reference positive)"),
      apparentSpecificity: quantity("proportion", "P(kit non-reactive | this reference negative)"),
      apparentPrevalence: quantity("proportion", "P(this reference positive)"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  anyPositive: Judged("positive if either reference test is"),
  bothPositive: Judged("positive only if both reference tests are"),
  firstAlone: Judged("the first reference test alone"),
  secondAlone: Judged("the second reference test alone"),
});
export type CompositeInput = v.InferOutput<typeof Input>;
export type CompositeOptions = v.InferOutput<typeof Options>;
export type CompositeValues = v.InferOutput<typeof Values>;

/**
 * How good a reference made of two tests is, and how good a kit then looks against it.
 *
 * @param input accuracies in 0..1; dependence of the two reference tests among people of the same truth. The
 *   kit's errors are independent of both
 * @returns proportions in 0..1; `null` with a note where a reference calls nobody positive, or nobody negative
 * @throws InputError at `input.dependence`, with the bounds, where the two tests don't allow it
 * Behaves badly where kit and reference share errors, or where the kit is itself part of the reference.
 * Source: alonzo1999
 */
export function compositeReference(
  input: CompositeInput,
  _options: CompositeOptions,
): Finding<CompositeValues> {
  const { kit, first, second, dependence, prevalence } = input;
  const rules = compute(twoTests, { first, second, dependence, prevalences: [prevalence] }).values;
  const against = (reference: KnownAccuracy) => judgedAgainst(kit, reference, prevalence);
  const values = {
    anyPositive: against(accuracyOf(rules.parallel)),
    bothPositive: against(accuracyOf(rules.serial)),
    firstAlone: against(first),
    secondAlone: against(second),
  };
  return { values, notes: Object.entries(values).flatMap(([name, judged]) => absentNotes(name, judged)) };
}

function accuracyOf(rule: { sensitivity: number | null; specificity: number | null }): KnownAccuracy {
  return { sensitivity: rule.sensitivity ?? 0, specificity: rule.specificity ?? 0 };
}

function judgedAgainst(kit: KnownAccuracy, reference: KnownAccuracy, prevalence: number) {
  const { sensitivity, specificity, referencePositive } = apparentAgainst(
    cellsOf({ first: kit.sensitivity, second: reference.sensitivity }, 0),
    cellsOf({ first: 1 - kit.specificity, second: 1 - reference.specificity }, 0),
    prevalence,
  );
  return {
    ...reference,
    apparentSensitivity: sensitivity,
    apparentSpecificity: specificity,
    apparentPrevalence: referencePositive,
  };
}

function absentNotes(name: string, judged: CompositeValues["anyPositive"]): Note[] {
  const notes: Note[] = [];
  if (judged.apparentSensitivity === null) {
    notes.push(note("nobody", `${name}.apparentSensitivity`, "this reference calls nobody positive"));
  }
  if (judged.apparentSpecificity === null) {
    notes.push(note("nobody", `${name}.apparentSpecificity`, "this reference calls nobody negative"));
  }
  return notes;
}

export const referenceComposite = defineMethod({
  id: "reference.composite",
  version: 1,
  title: "A reference made of two tests",
  question: "How good is a reference of two tests, and how good does a kit look against it?",
  formula:
    "any positive: SeR = 1 - (1 - Se1)(1 - Se2) - cov+, SpR = Sp1 Sp2 + cov-; both positive: SeR = Se1 Se2 + cov+, SpR = 1 - (1 - Sp1)(1 - Sp2) - cov-. Apparent sensitivity of the kit = (p Se SeR + (1 - p)(1 - Sp)(1 - SpR)) / (p SeR + (1 - p)(1 - SpR)), specificity alike",
  caution:
    "any positive misses less but lets more false positives in, which harm the apparent sensitivity of a kit the more, the rarer the condition; both positive does the reverse. The kit must not be part of the reference, both tests must be done in everybody, and errors shared by kit and reference are not in this formula",
  sources: ["alonzo1999"],
  input: Input,
  options: Options,
  values: Values,
  run: compositeReference,
  examples: compositeExamples,
});
