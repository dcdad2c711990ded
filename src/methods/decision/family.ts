import * as v from "valibot";
import { choice, count, openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { binomialCdf } from "../../numeric/binomial.ts";
import { type Adjusted, adjustedP } from "./adjusted-p.ts";
import { familyExamples } from "./family-examples.ts";

const label = () => text("name of the criterion");
const Tested = v.strictObject({
  label: label(),
  pValue: proportion("p-value of the criterion not being true"),
});
const Trusted = v.strictObject({
  label: label(),
  confidence: proportion("highest one-sided confidence level at which the limit still meets the criterion"),
});
const Counted = v.strictObject({
  label: label(),
  count: count("how many of them"),
  total: count("of how many observed"),
  threshold: openProportion("the proportion demanded"),
  direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
});
const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.union([Tested, Trusted, Counted], "expected a pValue, a confidence, or counts with their threshold"),
    ),
    v.minLength(1, "expected one criterion or more"),
    v.description("one entry each, in the order of a fixed sequence"),
  ),
});
const Options = v.strictObject({
  alpha: v.optional(openProportion("error allowed: one-sided, for the family as a whole"), 0.05),
});
const Shown = (meaning: string) => choice(["shown", "not_shown"], meaning);
const Values = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: label(),
        pValue: quantity("probability", "p-value of this criterion alone"),
        bonferroni: quantity("probability", "p-value times the number of criteria"),
        holm: quantity("probability", "p-value adjusted by Holm, from the smallest upwards"),
        benjaminiHochberg: quantity("probability", "p-value adjusted for the false discovery rate"),
        fixedSequence: quantity("probability", "largest p-value up to here, in the order given"),
        verdicts: v.pipe(
          v.strictObject({
            alone: Shown("unadjusted: right when all criteria must be met"),
            bonferroni: Shown("Bonferroni"),
            holm: Shown("Holm"),
            benjaminiHochberg: Shown("Benjamini and Hochberg"),
            fixedSequence: Shown("fixed sequence"),
          }),
          v.description("is the criterion shown to be met at the error allowed"),
        ),
      }),
    ),
    v.description("one entry for each criterion, in the order given"),
  ),
  shown: v.pipe(
    v.strictObject({
      alone: count("criteria shown without adjustment"),
      bonferroni: count("criteria shown with Bonferroni"),
      holm: count("criteria shown with Holm"),
      benjaminiHochberg: count("criteria shown with Benjamini and Hochberg"),
      fixedSequence: count("criteria shown in fixed sequence"),
    }),
    v.description("how many criteria are shown"),
  ),
  allMustPass: v.pipe(
    v.strictObject({
      verdict: Shown("are all criteria shown"),
      pValue: quantity("probability", "the largest p-value: no adjustment is due"),
    }),
    v.description("intersection-union: the kit needs every criterion"),
  ),
  anyPasses: v.pipe(
    v.strictObject({
      verdict: Shown("is at least one criterion shown"),
      pValue: quantity("probability", "smallest p-value, adjusted for having had so many chances"),
    }),
    v.description("union-intersection: one criterion would be enough"),
  ),
});
export type FamilyInput = v.InferOutput<typeof Input>;
export type FamilyOptions = v.InferOutput<typeof Options>;
export type FamilyValues = v.InferOutput<typeof Values>;
type Criterion = FamilyInput["criteria"][number];

/**
 * Several criteria judged together: what each p-value becomes, and which criteria are shown to be met.
 *
 * @param input   each criterion with a one-sided p-value, a one-sided confidence (1 - p), or counts, from
 *   which the exact binomial p-value at the threshold is taken
 * @param options alpha: error allowed, one-sided, for the family
 * @returns adjusted p-values in 0..1, verdicts under each procedure, and the two ways of combining. A
 *   criterion without observations has the p-value 1 and a note
 * Sources: holm1979, benjamini1995, berger1982
 */
export function judgeFamily({ criteria }: FamilyInput, { alpha }: FamilyOptions): Finding<FamilyValues> {
  const pValues = criteria.map(pValueOf);
  const adjusted = adjustedP(pValues);
  const within = (value: number) => (value <= alpha * (1 + 4 * Number.EPSILON) ? "shown" : "not_shown");
  const entries = criteria.map(({ label: name }, at) => {
    const pValue = pValues[at] as number;
    const own = adjusted[at] as Adjusted;
    const verdicts = {
      alone: within(pValue),
      bonferroni: within(own.bonferroni),
      holm: within(own.holm),
      benjaminiHochberg: within(own.benjaminiHochberg),
      fixedSequence: within(own.fixedSequence),
    } as const;
    return { label: name, pValue, ...own, verdicts };
  });
  const shown = (procedure: keyof (typeof entries)[number]["verdicts"]) =>
    entries.filter(({ verdicts }) => verdicts[procedure] === "shown").length;
  const largest = Math.max(...pValues);
  const smallest = Math.min(...adjusted.map(({ holm }) => holm));
  const values: FamilyValues = {
    criteria: entries,
    shown: {
      alone: shown("alone"),
      bonferroni: shown("bonferroni"),
      holm: shown("holm"),
      benjaminiHochberg: shown("benjaminiHochberg"),
      fixedSequence: shown("fixedSequence"),
    },
    allMustPass: { verdict: within(largest), pValue: largest },
    anyPasses: { verdict: within(smallest), pValue: smallest },
  };
  return { values, notes: notesOn(criteria) };
}

/** P(as many or more | threshold) for `at_least`, P(as few or fewer | threshold) for `at_most`. */
function pValueOf(criterion: Criterion, at: number): number {
  if ("pValue" in criterion) return criterion.pValue;
  if ("confidence" in criterion) return 1 - criterion.confidence;
  const { count: seen, total, threshold, direction } = criterion;
  if (seen > total) {
    throw new InputError(["input", "criteria", at, "count"], `at most the total, ${total}`, seen);
  }
  if (direction === "at_least") return binomialCdf(seen - 1, total, threshold, "upper");
  return binomialCdf(seen, total, threshold, "lower");
}

function notesOn(criteria: readonly Criterion[]): Note[] {
  const notes: Note[] = [];
  for (const [at, criterion] of criteria.entries()) {
    if (!("total" in criterion) || criterion.total > 0) continue;
    notes.push(note("no_observations", `criteria.${at}`, "nothing was observed: the p-value is 1"));
  }
  const names = criteria.map(({ label: name }) => name);
  for (const [at, name] of names.entries()) {
    if (names.indexOf(name) === at) continue;
    notes.push(note("same_label", `criteria.${at}`, `another criterion has the name ${name}`));
  }
  return notes;
}

export const decisionFamily = defineMethod({
  id: "decision.family",
  version: 1,
  title: "Several criteria together",
  question: "Which of several criteria are shown to be met, when one of them might be by chance?",
  formula:
    "p-values in rising order p(1) to p(m). Bonferroni: m p. Holm: running maximum of (m - i + 1) p(i). Benjamini and Hochberg: running minimum from above of m p(i) / i. Fixed sequence: running maximum in the order given. All must pass: the largest p-value, unadjusted (intersection-union). Any passes: the smallest p-value times m",
  caution:
    "if every criterion must be met, no adjustment is due; if one is enough, it is. Choose the rule before the data: mixing the two, or ordering the sequence afterwards, voids the error. Benjamini and Hochberg limit the share of false claims, not the chance of any. Not shown does not mean not met",
  sources: ["holm1979", "benjamini1995", "berger1982"],
  input: Input,
  options: Options,
  values: Values,
  run: judgeFamily,
  examples: familyExamples,
});
