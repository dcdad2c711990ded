import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { exactExamples } from "./exact-posterior-examples.ts";
import {
  type ExactInput as Asked,
  type ExactOptions as Chosen,
  ExactInput,
  ExactOptions,
  type ExactPosterior,
  ExactValues,
  type ExactValues as Values,
} from "./exact-posterior-fields.ts";
import { ofBeta, ofPrevalence, ofTable } from "./exact-posterior-mixture.ts";
import { mirroredPriors, NO_PEOPLE, predictiveValue, type TestPriors } from "./exact-posterior-predictive.ts";
import { summarised } from "./exact-posterior-share.ts";
import {
  type ConditionTable,
  combinationsOf,
  type ExactWeights,
  exactWeights,
  type FourCounts,
  mirroredTable,
} from "./exact-posterior-weights.ts";
import { requirePriors } from "./prior-fields.ts";

/** More ways than these are left to the draws of `reference.bayesian`; of one test each is a beta by itself. */
const MOST_COMBINATIONS = { 1: 1_000_000, 2: 10_000_000 };

/**
 * What do one test, or two, and prior knowledge say of prevalence and accuracy in one population: exactly?
 *
 * Every way to share the people of each pattern out over the condition is gone through. Given such a way, each
 * unknown has a beta distribution; the posterior is their mixture, without any draw.
 *
 * @param input one test or two (they err independently given the condition), people by pattern, all results there,
 *   a beta prior for every share
 * @param options level of the limits (equal tails)
 * @returns posterior of every share with its prior beside, predictive values in this population, the people with the
 *   condition behind each pattern, and the probability of these counts under the priors
 * @throws InputError where a pattern or the priors have the wrong length, or where there are too many
 *   ways (a million for one test, ten million for two): `reference.bayesian` then answers by drawing
 * Behaves badly where the priors say little: the counts alone can't tell the unknowns apart, and the posterior is
 * what the priors leave; where they don't say which class is the condition, it has two humps
 * Source: joseph1995 for the model
 */
export function exactPosterior(input: Asked, { level }: Chosen): Finding<Values> {
  const tests = input.tests.length;
  const repeated = input.tests.findIndex((name, place) => input.tests.indexOf(name) < place);
  if (repeated >= 0) {
    throw new InputError(["input", "tests", repeated], "a name not used before", input.tests[repeated]);
  }
  requirePriors(input.priors, tests, 1);
  const counts = countsOf(input);
  const combinations = combinationsOf(counts);
  const most = MOST_COMBINATIONS[tests === 1 ? 1 : 2];
  if (combinations > most) {
    const expected = `at most ${most.toLocaleString("en-GB")} ways to share the people out over the condition (reference.bayesian has no such bound)`;
    throw new InputError(["input", "populations", 0, "patterns"], expected, combinations);
  }
  const prevalence = input.priors.populations[0] as TestPriors["prevalence"];
  const weights = exactWeights(counts, { prevalence, tests: input.priors.tests });
  const notes = notesOn(input);
  const values: Values = {
    tests: input.tests.map((name, place) => {
      const priors = { prevalence, ...(input.priors.tests[place] as Asked["priors"]["tests"][0]) };
      return { name, ...testOf(weights.tables[place] as ConditionTable, priors, level, place, notes) };
    }),
    populations: [
      {
        label: input.populations[0]?.label ?? "",
        people: counts.reduce((sum, people) => sum + people, 0),
        prevalence: summarised(
          ofPrevalence(prevalence, weights.tables[0] as ConditionTable),
          ofBeta(prevalence),
          level,
        ),
      },
    ],
    patterns: patternsOf(counts, weights, tests),
    evidence: { logProbability: weights.logEvidence },
    identified: { rank: 2 ** tests - 1, unknowns: 1 + 2 * tests, byDataAlone: false },
    combinations,
  };
  return { values, notes };
}

/** Both reactive, first only, second only, neither; of one test the first and the third. */
function countsOf({ tests, populations }: Asked): FourCounts {
  const counts: [number, number, number, number] = [0, 0, 0, 0];
  populations[0]?.patterns.forEach(({ reactive, people }, place) => {
    if (reactive.length !== tests.length) {
      const path = ["input", "populations", 0, "patterns", place, "reactive"];
      throw new InputError(path, `${tests.length} results, one per test`, reactive);
    }
    const [first, second = true] = reactive;
    const cell = (first ? 0 : 2) + (second ? 0 : 1);
    counts[cell] = (counts[cell] as number) + people;
  });
  return counts;
}

function testOf(
  table: ConditionTable,
  priors: TestPriors,
  level: number,
  place: number,
  notes: Note[],
): Omit<Values["tests"][0], "name"> {
  const mirrored = mirroredTable(table);
  const predictive = (side: "ppv" | "npv"): ExactPosterior => {
    const [counted, known] = side === "ppv" ? [table, priors] : [mirrored, mirroredPriors(priors)];
    const [after, before] = [predictiveValue(counted, known), predictiveValue(NO_PEOPLE, known)];
    if (after !== null && before !== null) return summarised(after, before, level);
    const message = "a prior with a shape so near 0, or this many people, would take too long: not computed";
    notes.push(note("too_long", `tests.${place}.${side}`, message));
    return NOT_COMPUTED;
  };
  return {
    sensitivity: summarised(ofTable(priors.sensitivity, table), ofBeta(priors.sensitivity), level),
    specificity: summarised(ofTable(priors.specificity, mirrored), ofBeta(priors.specificity), level),
    ppv: predictive("ppv"),
    npv: predictive("npv"),
  };
}

const NOT_COMPUTED: ExactPosterior = {
  mean: null,
  median: null,
  standardDeviation: null,
  lower: null,
  upper: null,
  prior: { mean: null, median: null, lower: null, upper: null },
  density: [],
};

function patternsOf(counts: FourCounts, { diseased }: ExactWeights, tests: number): Values["patterns"] {
  const word = (reactive: boolean) => (reactive ? ("reactive" as const) : ("nonreactive" as const));
  return [0, 1, 2, 3]
    .filter((cell) => tests === 2 || cell % 2 === 0)
    .map((cell) => ({
      results: [word(cell < 2), word(cell % 2 === 0)].slice(0, tests),
      people: counts[cell] as number,
      diseased: diseased[cell] as number,
    }));
}

function notesOn({ tests, priors }: Asked): Note[] {
  const [rank, unknowns] = [2 ** tests.length - 1, 1 + 2 * tests.length];
  const rests = `the counts leave ${rank} of ${unknowns} unknowns to be told: the rest is what the priors say, however many people there are. Try other priors`;
  const notes = [note("rests_on_priors", "tests", rests)];
  const information = priors.tests.reduce(
    (sum, { sensitivity, specificity }) =>
      sum +
      sensitivity.alpha / (sensitivity.alpha + sensitivity.beta) +
      specificity.alpha / (specificity.alpha + specificity.beta) -
      1,
    0,
  );
  if (!(information > 0)) {
    const message =
      "the priors do not say that the tests are better than chance: present and absent can be exchanged, and the posterior may have two humps, one for each naming";
    notes.push(note("naming_open", "tests", message));
  }
  if (tests.length === 2) {
    const message =
      "tests are taken to err independently given the condition; where they err together, they look better than they are";
    notes.push(note("independence", "tests", message));
  }
  return notes;
}

export const exactPosteriorMethod = defineMethod({
  id: "reference.exact_posterior",
  version: 1,
  title: "Exact posterior of one test or two without a true reference",
  question: "What do one or two tests and prior knowledge say of prevalence and accuracy, exactly?",
  formula:
    "y of the n people of each pattern have the condition: posterior of the y proportional to product of C(n, y) times B(alpha + in favour, beta + against) / B(alpha, beta) of every share; given the y each share is beta, so the posterior is a mixture of betas over all y. Predictive values: log odds = logit prevalence + log sensitivity - log(1 - specificity), characteristic function a mixture of quotients of gamma functions, inverted by Davies's sum; negative: present and absent exchanged",
  caution:
    "the data alone can't tell these unknowns apart: what the priors leave open stays open, and a sure prior that is wrong stays wrong. Tests that err together look better than they are",
  sources: ["joseph1995", "davies1973"],
  input: ExactInput,
  options: ExactOptions,
  values: ExactValues,
  run: exactPosterior,
  examples: exactExamples,
});
