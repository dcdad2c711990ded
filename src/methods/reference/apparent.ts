import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { jointResultsOf, noPhiNotes } from "../algorithms/joint-results.ts";
import { jointResults, twoKitDependence } from "../algorithms/two-kits-fields.ts";
import { type Against, apparentAgainst } from "./apparent-accuracy.ts";
import { apparentExamples } from "./apparent-examples.ts";
import { knownAccuracy } from "./known-errors-fields.ts";

const Input = v.strictObject({
  kit: knownAccuracy("what the kit truly gets right"),
  reference: knownAccuracy("what the reference truly gets right"),
  dependence: twoKitDependence(),
  prevalences: v.pipe(
    v.array(proportion("prevalence")),
    v.minLength(1, "expected one prevalence or more"),
    v.maxLength(1001, "expected at most 1001 prevalences"),
    v.description("prevalences at which the study is thought of"),
  ),
});
const Options = v.strictObject({});
const At = v.strictObject({
  prevalence: proportion("prevalence"),
  bothReactive: quantity("probability", "kit reactive, reference positive"),
  kitOnly: quantity("probability", "kit reactive, reference negative"),
  referenceOnly: quantity("probability", "kit non-reactive, reference positive"),
  neither: quantity("probability", "kit non-reactive, reference negative"),
  sensitivity: quantity("proportion", "apparent: P(kit reactive | reference positive)"),
  specificity: quantity("proportion", "apparent: P(kit non-reactive | reference negative)"),
  referencePositive: quantity("proportion", "apparent prevalence: P(reference positive)"),
  presentAmongPositive: quantity("proportion", "P(condition present | reference positive)"),
  presentAmongNegative: quantity("proportion", "P(condition present | reference negative)"),
});
const Values = v.strictObject({
  at: v.pipe(v.array(At), v.description("one entry per prevalence asked, same order")),
  diseased: jointResults("both results among people with the condition; first: kit, second: reference"),
  nondiseased: jointResults("both results among people without it; first: kit, second: reference"),
});
export type ApparentInput = v.InferOutput<typeof Input>;
export type ApparentOptions = v.InferOutput<typeof Options>;
export type ApparentValues = v.InferOutput<typeof Values>;

/**
 * What accuracy a kit seems to have when it is held against a reference that errs.
 *
 * @param input true accuracies in 0..1; dependence among people of the same truth, as covariance or phi
 * @returns proportions in 0..1 for every prevalence; `null` with a note where the reference calls nobody
 *   positive, or nobody negative
 * @throws InputError at `input.dependence`, with the bounds, where the accuracies don't allow it
 * Behaves badly nowhere, but speaks of expectations: chance comes on top.
 * Sources: vacek1985, gardner2000
 */
export function apparentAccuracy(input: ApparentInput, _options: ApparentOptions): Finding<ApparentValues> {
  const { kit, reference, dependence, prevalences } = input;
  const diseased = jointResultsOf(
    { first: kit.sensitivity, second: reference.sensitivity },
    dependence,
    "diseased",
  );
  const nondiseased = jointResultsOf(
    { first: 1 - kit.specificity, second: 1 - reference.specificity },
    dependence,
    "nondiseased",
  );
  const at = prevalences.map((prevalence) => ({
    prevalence,
    ...apparentAgainst(diseased, nondiseased, prevalence),
  }));
  return { values: { at, diseased, nondiseased }, notes: notesOn({ at, diseased, nondiseased }) };
}

function notesOn({ at, diseased, nondiseased }: ApparentValues): Note[] {
  const notes = at.flatMap((entry, place) => absentNotes(entry, `at.${place}`));
  if (diseased.phi === null) notes.push(...noPhiNotes("diseased"));
  if (nondiseased.phi === null) notes.push(...noPhiNotes("nondiseased"));
  return notes;
}

function absentNotes(entry: Pick<Against, "sensitivity" | "specificity">, place: string): Note[] {
  const notes: Note[] = [];
  if (entry.sensitivity === null) {
    const message = "the reference calls nobody positive here";
    notes.push(note("nobody", `${place}.sensitivity`, message));
    notes.push(note("nobody", `${place}.presentAmongPositive`, message));
  }
  if (entry.specificity === null) {
    const message = "the reference calls nobody negative here";
    notes.push(note("nobody", `${place}.specificity`, message));
    notes.push(note("nobody", `${place}.presentAmongNegative`, message));
  }
  return notes;
}

export const referenceApparent = defineMethod({
  id: "reference.apparent",
  version: 1,
  title: "Accuracy as it seems against an imperfect reference",
  question: "How good does a kit of known accuracy look when the reference errs?",
  formula:
    "both positive: p (Se SeR + cov+) + (1 - p)((1 - Sp)(1 - SpR) + cov-), the other cells alike; apparent sensitivity = both positive / reference positive, apparent specificity = both negative / reference negative. cov+ between -min(Se SeR, (1 - Se)(1 - SeR)) and min(Se (1 - SeR), SeR (1 - Se)), cov- alike",
  caution:
    "the rarer the condition, the more of the reference's positives are false, and the worse a good kit looks; with a common condition the specificity suffers. Errors that kit and reference share make a kit look better than it is. Neither shows in an interval: more people don't help",
  sources: ["vacek1985", "gardner2000"],
  input: Input,
  options: Options,
  values: Values,
  run: apparentAccuracy,
  examples: apparentExamples,
});
