import * as v from "valibot";
import { choice, count, level, proportion, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { incompleteBeta } from "../../numeric/incomplete-beta.ts";
import { notesAt } from "../notes-at.ts";
import { CRITERION_RULES, criterionVerdict, VERDICTS, type Verdict } from "../proportion/criterion.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";

const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion, e.g. the analyte"),
        count: count("how many of them"),
        total: count("of how many observed"),
        threshold: proportion("the proportion demanded"),
        direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
      }),
    ),
    v.minLength(2, "expected two criteria or more"),
    v.description("criteria that must all be reached"),
  ),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  sides: v.optional(choice(["two", "one"], "as of proportion.criterion"), "two"),
  rule: v.optional(choice(CRITERION_RULES, "as of proportion.criterion")),
  correlation: v.optional(
    v.pipe(
      v.number(),
      v.minValue(-1, "expected -1 to 1"),
      v.maxValue(1, "expected -1 to 1"),
      v.description("correlation of the two criteria being truly reached; for two criteria only"),
    ),
    0,
  ),
});
const Values = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion"),
        verdict: choice(VERDICTS, "is this criterion met"),
        probability: quantity(
          "probability",
          "posterior probability that it is truly reached, Jeffreys prior",
        ),
      }),
    ),
    v.description("each criterion alone, in the order given"),
  ),
  verdict: choice(
    VERDICTS,
    "met if every criterion is met, not_met if one is not, else undecided: the criteria as one",
  ),
  probability: v.pipe(
    v.strictObject({
      independent: quantity("probability", "that all are truly reached, the posteriors being independent"),
      correlated: quantity("probability", "the same with the correlation stated; equal to it at 0"),
      lowest: quantity("probability", "the least it can be, whatever the dependence (Fréchet)"),
      highest: quantity("probability", "the most it can be (Fréchet)"),
    }),
    v.description("probability that all criteria are truly reached"),
  ),
});
export type JointInput = v.InferOutput<typeof Input>;
export type JointOptions = v.InferOutput<typeof Options>;
export type JointValues = v.InferOutput<typeof Values>;

/**
 * Several criteria as one: are all met, and how probable is it that all are truly reached?
 *
 * @param input   two criteria or more, e.g. the sensitivity of each analyte
 * @param options interval, level, rule as of `proportion.criterion`; correlation -1..1
 * @returns probabilities in 0..1; `null` with a note where a criterion has no observations
 * @throws InputError for a correlation with more than two criteria
 * The verdict needs no adjustment for there being several: all must be met.
 * Sources: berger1982, frechet1951, brown2001
 */
export function judgeJointly({ criteria }: JointInput, options: JointOptions): Finding<JointValues> {
  if (criteria.length > 2 && options.correlation !== 0) {
    throw new InputError(["options", "correlation"], "0 with more than two criteria", options.correlation);
  }
  const judged = criteria.map((criterion, at) => judgedAlone(criterion, at, options));
  const verdict = together(judged.map((entry) => entry.verdict));
  const notes = criteria.flatMap(({ total }, at) =>
    total > 0 ? [] : [note("no_observations", `criteria.${at}`, "nothing was observed")],
  );
  const probabilities = judged.map(({ probability }) => probability);
  if (!probabilities.every((probability) => probability !== null)) {
    const none = { independent: null, correlated: null, lowest: null, highest: null };
    notes.push(...notesAt("no_observations", ["probability"], "nothing was observed of one of the criteria"));
    return { values: { criteria: judged, verdict, probability: none }, notes };
  }
  const { probability, notes: limited } = allReached(probabilities, options.correlation);
  return { values: { criteria: judged, verdict, probability }, notes: [...notes, ...limited] };
}

function judgedAlone(
  criterion: JointInput["criteria"][number],
  at: number,
  options: JointOptions,
): JointValues["criteria"][number] {
  const { label, count: seen, total, threshold, direction } = criterion;
  if (seen > total) {
    throw new InputError(["input", "criteria", at, "count"], `at most the total, ${total}`, seen);
  }
  if (total === 0) return { label, verdict: "not_estimable", probability: null };
  const verdict = criterionVerdict({ count: seen, total, threshold, direction }, options);
  const tail = direction === "at_least" ? "upper" : "lower";
  return { label, verdict, probability: incompleteBeta(threshold, seen + 0.5, total - seen + 0.5, tail) };
}

/** One criterion not met is enough against; met needs them all. */
function together(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("not_met")) return "not_met";
  if (verdicts.includes("not_estimable")) return "not_estimable";
  return verdicts.includes("undecided") ? "undecided" : "met";
}

function allReached(probabilities: readonly number[], correlation: number) {
  const independent = probabilities.reduce((product, probability) => product * probability, 1);
  const missing = probabilities.reduce((sum, probability) => sum + (1 - probability), 0);
  const lowest = Math.max(0, 1 - missing);
  const highest = Math.min(...probabilities);
  const spread = Math.sqrt(
    probabilities.reduce((product, probability) => product * probability * (1 - probability), 1),
  );
  const wanted = independent + correlation * spread;
  const correlated = correlation === 0 ? independent : Math.min(highest, Math.max(lowest, wanted));
  const notes: Note[] = [];
  if (correlation !== 0 && correlated !== wanted) {
    const message =
      "two criteria with these probabilities can't be correlated so strongly: the nearest possible";
    notes.push(note("beyond_frechet", "probability.correlated", message));
  }
  return { probability: { independent, correlated, lowest, highest }, notes };
}

const TWO_ANALYTES = {
  criteria: [
    { label: "analyte 1", count: 111, total: 113, threshold: 0.95, direction: "at_least" },
    { label: "analyte 2", count: 138, total: 140, threshold: 0.95, direction: "at_least" },
  ],
};

export const decisionJoint = defineMethod({
  id: "decision.joint",
  version: 1,
  title: "Several criteria as one",
  question: "Are the criteria of both analytes reached together?",
  formula:
    "each probability: beta(count + 1/2, total - count + 1/2) beyond the threshold. All: their product if independent; with a correlation r of two: p1 p2 + r sqrt(p1 (1 - p1) p2 (1 - p2)), kept within max(0, 1 - sum of (1 - p)) and the smallest p",
  caution:
    "the same people and cassettes stand behind both analytes, so that independence is an assumption: the lowest and highest probability hold without it",
  sources: ["berger1982", "frechet1951", "brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: judgeJointly,
  examples: [
    {
      name: "111 of 113 and 138 of 140 against at least 95 %",
      input: TWO_ANALYTES,
      expect: {
        verdict: "undecided",
        "criteria.0.probability": 0.957924049544524,
        "criteria.1.verdict": "undecided",
        "probability.independent": 0.944610203952383,
        "probability.correlated": 0.944610203952383,
        "probability.lowest": 0.944025405285126,
        "probability.highest": 0.957924049544524,
      },
      tolerance: { relative: 1e-9 },
      source: "brown2001",
      recomputedBy: "R 4.2.2 pbeta",
      memory: true,
    },
    {
      name: "the same, correlated 0.3",
      input: TWO_ANALYTES,
      options: { correlation: 0.3 },
      expect: { "probability.correlated": 0.951661204658053 },
      tolerance: { relative: 1e-9 },
      source: "frechet1951",
      recomputedBy: "R 4.2.2 pbeta",
      memory: true,
    },
    {
      name: "nothing observed of one",
      input: {
        criteria: [
          { label: "analyte 1", count: 50, total: 50, threshold: 0.9, direction: "at_least" },
          { label: "analyte 2", count: 0, total: 0, threshold: 0.9, direction: "at_least" },
        ],
      },
      expect: { verdict: "not_estimable", "probability.independent": null, "criteria.0.verdict": "met" },
      tolerance: { relative: 0 },
      source: "no publication: by definition",
    },
  ],
});
