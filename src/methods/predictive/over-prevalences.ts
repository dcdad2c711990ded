import * as v from "valibot";
import { estimate, level, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import type { Note } from "../../core/note.ts";
import { predictiveMethod, requireParts, studyCounts } from "./fields.ts";
import { predictiveInterval } from "./predictive-interval.ts";

const Input = v.strictObject({
  ...studyCounts,
  prevalences: v.pipe(
    v.array(proportion("a prevalence")),
    v.minLength(1, "expected at least one prevalence"),
    v.description("prevalences to look at, in the order wanted"),
  ),
});
const Options = v.strictObject({ method: predictiveMethod(), level: level() });
const Values = v.strictObject({
  points: v.pipe(
    v.array(
      v.strictObject({
        prevalence: quantity("proportion", "the prevalence"),
        ppv: estimate("proportion", "P(condition present | reactive)"),
        npv: estimate("proportion", "P(condition absent | non-reactive)"),
      }),
    ),
    v.description("one entry per prevalence, in the order given"),
  ),
});
export type OverPrevalencesInput = v.InferOutput<typeof Input>;
export type OverPrevalencesOptions = v.InferOutput<typeof Options>;
export type OverPrevalencesValues = v.InferOutput<typeof Values>;

/** Prevalences for a curve: 1 in 1,000 to 1 in 2, equally spaced on the log scale. */
export const CURVE_PREVALENCES: readonly number[] = Array.from(
  { length: 61 },
  (_, step) => 0.001 * Math.pow(500, step / 60),
);

/**
 * Predictive values over a range of prevalences: the curve with its band.
 *
 * @param input   the study's counts of people, and prevalences in 0..1
 * @returns one point per prevalence; a note that holds at every prevalence is given once, for all points
 * Source: mercaldo2007
 */
export function predictiveOverPrevalences(
  input: OverPrevalencesInput,
  options: OverPrevalencesOptions,
): Finding<OverPrevalencesValues> {
  requireParts(input);
  const findings = input.prevalences.map((prevalence) =>
    predictiveInterval(input, prevalence, options.method, options.level),
  );
  const points = findings.map(({ ppv, npv }, index) => ({
    prevalence: input.prevalences[index] ?? null,
    ppv,
    npv,
  }));
  return { values: { points }, notes: gathered(findings.map(({ notes }) => notes)) };
}

/** Each kind of note once, with the path of the first point it speaks of, or of all points. */
function gathered(notesByPoint: readonly (readonly Note[])[]): Note[] {
  const seen = new Map<string, { first: number; times: number; note: Note }>();
  notesByPoint.forEach((notes, index) => {
    for (const entry of notes.filter(({ path }) => !path.startsWith("centre"))) {
      const key = `${entry.code} ${entry.path} ${entry.message}`;
      const known = seen.get(key);
      if (known === undefined) seen.set(key, { first: index, times: 1, note: entry });
      else known.times += 1;
    }
  });
  return [...seen.values()].map(({ first, times, note }) => ({
    ...note,
    path: times === notesByPoint.length ? "points" : `points.${first}.${note.path}`,
    message:
      times === 1 || times === notesByPoint.length ? note.message : `${note.message} (${times} points)`,
  }));
}

export const overPrevalences = defineMethod({
  id: "predictive.over_prevalences",
  version: 1,
  title: "Predictive values over a range of prevalences",
  question: "How do the predictive values change with prevalence?",
  formula: "as predictive.at_prevalence, at each prevalence",
  caution:
    "the band is pointwise: it holds at each prevalence by itself. Sensitivity and specificity may themselves change with prevalence",
  sources: ["mercaldo2007", "altman1994"],
  input: Input,
  options: Options,
  values: Values,
  run: predictiveOverPrevalences,
  examples: [
    {
      name: "96 of 104 and 192 of 196 at five prevalences",
      input: {
        truePositives: 96,
        positives: 104,
        trueNegatives: 192,
        negatives: 196,
        prevalences: [0.001, 0.01, 0.05, 0.2, 0.5],
      },
      expect: {
        "points.0.ppv.value": 0.0433149171270718,
        "points.0.npv.value": 0.999921401932871,
        "points.1.ppv.value": 0.3136,
        "points.1.ppv.lower": 0.147435465078124,
        "points.1.ppv.upper": 0.54690513289813,
        "points.1.npv.lower": 0.99845837694941,
        "points.2.ppv.value": 0.704191616766467,
        "points.3.npv.value": 0.980746561886051,
        "points.4.ppv.value": 0.978369384359401,
      },
      tolerance: { relative: 1e-8 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: Bayes' rule, delta method on the logit scale",
      memory: true,
    },
    {
      name: "liver scan at a quarter instead of three quarters",
      input: { truePositives: 231, positives: 258, trueNegatives: 54, negatives: 86, prevalences: [0.25] },
      expect: { "points.0.ppv.value": 0.45, "points.0.npv.value": 0.95 },
      tolerance: { decimals: 2 },
      source: "altman1994",
      memory: true,
    },
  ],
});
