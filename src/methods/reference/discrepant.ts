import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { knownAccuracy } from "./known-errors-fields.ts";

const Input = v.strictObject({
  kit: knownAccuracy("what the kit truly gets right"),
  comparator: knownAccuracy("what the test it is compared with truly gets right"),
  resolver: knownAccuracy("the test that settles discrepant results; 1 and 1: it never errs"),
  prevalence: proportion("share of people with the condition"),
});
const Options = v.strictObject({});
const Accuracy = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "sensitivity of the kit"),
      specificity: quantity("proportion", "specificity of the kit"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  truth: Accuracy("what the kit truly gets right"),
  unresolved: Accuracy("against the comparator, nothing retested"),
  resolved: Accuracy("after only the discrepant results were retested: never to be reported"),
  everybody: Accuracy("against the resolver done in everybody"),
  retested: quantity("proportion", "share of people whose results are discrepant, and retested"),
  gain: v.pipe(
    v.strictObject({
      sensitivity: quantity("statistic", "resolved less true sensitivity"),
      specificity: quantity("statistic", "resolved less true specificity"),
    }),
    v.description("what the practice gives the kit beyond the truth"),
  ),
});
export type DiscrepantInput = v.InferOutput<typeof Input>;
export type DiscrepantOptions = v.InferOutput<typeof Options>;
export type DiscrepantValues = v.InferOutput<typeof Values>;

/**
 * For teaching: what retesting only the discrepant results does to a kit's apparent accuracy.
 *
 * It is no analysis of a study and takes no counts of one. Errors of the three tests are independent among
 * people of the same truth.
 *
 * @param input true accuracies in 0..1 of kit, comparator and resolver; prevalence
 * @returns proportions in 0..1; `null` with a note where nobody ends as positive, or as negative
 * Behaves badly by design: concordant errors are never found, so that the kit almost always gains.
 * Source: hadgu1996
 */
export function discrepantBias(
  input: DiscrepantInput,
  _options: DiscrepantOptions,
): Finding<DiscrepantValues> {
  const people = peopleOf(input);
  const share = (of: (one: Person) => boolean, among: (one: Person) => boolean) => {
    const whole = sumOf(people, among);
    return whole > 0 ? sumOf(people, (one) => among(one) && of(one)) / whole : null;
  };
  const kitAgainst = (reference: (one: Person) => boolean) => ({
    sensitivity: share(({ kit }) => kit, reference),
    specificity: share(
      ({ kit }) => !kit,
      (one) => !reference(one),
    ),
  });
  const truth = { sensitivity: input.kit.sensitivity, specificity: input.kit.specificity };
  const resolved = kitAgainst(({ kit, comparator, resolver }) => (kit === comparator ? kit : resolver));
  const beyond = (name: "sensitivity" | "specificity") => {
    const seen = resolved[name];
    return seen === null ? null : seen - truth[name];
  };
  const values: DiscrepantValues = {
    truth,
    unresolved: kitAgainst(({ comparator }) => comparator),
    resolved,
    everybody: kitAgainst(({ resolver }) => resolver),
    retested: sumOf(people, ({ kit, comparator }) => kit !== comparator),
    gain: { sensitivity: beyond("sensitivity"), specificity: beyond("specificity") },
  };
  return { values, notes: notesOn(values) };
}

/** People of one truth with one combination of results, and how many of all they are. */
interface Person {
  readonly kit: boolean;
  readonly comparator: boolean;
  readonly resolver: boolean;
  readonly share: number;
}

const RESULTS = [true, false];

function peopleOf({ kit, comparator, resolver, prevalence }: DiscrepantInput): Person[] {
  const chance = (test: DiscrepantInput["kit"], present: boolean, positive: boolean) => {
    const right = present ? test.sensitivity : test.specificity;
    return positive === present ? right : 1 - right;
  };
  return RESULTS.flatMap((present) =>
    RESULTS.flatMap((one) =>
      RESULTS.flatMap((other) =>
        RESULTS.map((third) => ({
          kit: one,
          comparator: other,
          resolver: third,
          share:
            (present ? prevalence : 1 - prevalence) *
            chance(kit, present, one) *
            chance(comparator, present, other) *
            chance(resolver, present, third),
        })),
      ),
    ),
  );
}

function sumOf(people: readonly Person[], counted: (one: Person) => boolean): number {
  return people.reduce((sum, one) => (counted(one) ? sum + one.share : sum), 0);
}

function notesOn(values: DiscrepantValues): Note[] {
  const warning =
    "retesting only discrepant results favours the kit: show the results before it, or retest concordant ones too";
  const notes = [note("teaching_only", "resolved", warning)];
  for (const kind of ["unresolved", "resolved", "everybody", "gain"] as const) {
    for (const name of ["sensitivity", "specificity"] as const) {
      if (values[kind][name] !== null) continue;
      const end = name === "sensitivity" ? "positive" : "negative";
      notes.push(note("nobody", `${kind}.${name}`, `nobody ends as ${end}`));
    }
  }
  return notes;
}

const PERFECT = { sensitivity: 1, specificity: 1 };

export const referenceDiscrepant = defineMethod({
  id: "reference.discrepant",
  version: 1,
  title: "Why retesting only discrepant results misleads (teaching, never an analysis)",
  question: "How much better than it is does a kit look, if only its discrepant results are retested?",
  formula:
    "concordant results stand; a discrepant one becomes what the resolver says. Resolved sensitivity = (both positive + kit-only positives that the resolver confirms) / (the same + comparator-only positives that the resolver confirms); specificity alike. All three tests err independently among people of the same truth",
  caution:
    "for teaching: never report resolved values as an estimate. Even a resolver that never errs makes the kit look better, because errors that kit and comparator share stay hidden while every quarrel can be settled in the kit's favour. Report the table before resolution, retest a random share of the concordant too (verification methods), or correct for known errors (reference.corrected)",
  sources: ["hadgu1996"],
  input: Input,
  options: Options,
  values: Values,
  run: discrepantBias,
  examples: [
    {
      name: "90 / 97 % against 80 / 99 % at 10 %, a resolver that never errs: 91.9 / 97.04, before 81.2 / 95.09",
      input: {
        kit: { sensitivity: 0.9, specificity: 0.97 },
        comparator: { sensitivity: 0.8, specificity: 0.99 },
        resolver: PERFECT,
        prevalence: 0.1,
      },
      expect: {
        "resolved.sensitivity": 0.9186,
        "resolved.specificity": 0.9704,
        "unresolved.sensitivity": 0.812,
        "unresolved.specificity": 0.9509,
        "truth.sensitivity": 0.9,
      },
      tolerance: { decimals: 4 },
      source: "hadgu1996",
      recomputedBy: "R 4.2.2: the sixteen groups of people added up",
      memory: true,
    },
    {
      name: "a comparator that never errs leaves nothing to gain",
      input: {
        kit: { sensitivity: 0.9, specificity: 0.97 },
        comparator: PERFECT,
        resolver: PERFECT,
        prevalence: 0.1,
      },
      expect: { "gain.sensitivity": 0, "gain.specificity": 0, retested: 0.037 },
      tolerance: { decimals: 12 },
      source: "no publication: by definition",
    },
  ],
});
