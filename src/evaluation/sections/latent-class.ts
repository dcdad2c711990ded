import { type Note, note } from "../../core/note.ts";
import { latentClass as likelihoodModel } from "../../methods/reference/latent-class.ts";
import type { LatentInput } from "../../methods/reference/latent-fields.ts";
import type { LatentClass as Planned } from "../../records/latent-class-fields.ts";
import type { LatentClass } from "../document.ts";
import { type LatentPeople, latentPeople, type ModelTest, modelTests } from "../latent-people.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { bayesianModelOf } from "./latent-bayesian.ts";
import { type ModelPriors, modelPriors } from "./latent-priors.ts";

/** Populations that the methods can take. */
const MOST_POPULATIONS = 10;
/** Random places from which the likeliest model is searched; the document says how many ended there. */
const STARTS = 10;

/** Every model of the study file in which no test is beyond doubt. */
export function latentClassSection(worktop: Worktop): LatentClass[] {
  return worktop.study.latent_class.map((planned) => fitted(worktop, planned));
}

function fitted(worktop: Worktop, planned: Planned): LatentClass {
  const { study, treatment } = worktop;
  const tests = modelTests(worktop, planned.analyte, planned.tests);
  const stratum = planned.populations ?? null;
  const people = latentPeople(tests, treatment, stratum);
  const priors = modelPriors(worktop, planned);
  const absent = absentNotes(tests, people);
  const found = absent.length > 0 ? NOTHING : models(worktop, planned, inputOf(planned, people), priors);
  return {
    id: planned.id,
    title: planned.title,
    analyte: planned.analyte,
    tests: planned.tests.map(({ id, title, reference }, place) => ({
      id,
      title,
      reference,
      side: tests[place]?.side ?? null,
      people: people.byTest[place] as LatentPeople["byTest"][number],
      prior: priors.tests?.[place] ?? null,
    })),
    populations:
      stratum === null
        ? null
        : { stratum, title: study.strata.find(({ id }) => id === stratum)?.title ?? stratum },
    people: { asked: people.asked, counted: people.counted, setAside: [...people.setAside] },
    dependence: typeof planned.dependence === "string" ? planned.dependence : "pairs",
    pairs: pairsOf(planned),
    source: planned.source ?? null,
    enteredOn: planned.entered_on ?? null,
    prevalencePrior: priors.prevalence,
    naive: naiveOf(worktop, tests, people),
    likelihood: found.likelihood,
    bayesian: found.bayesian,
    priorSensitivity: found.priorSensitivity,
    notes: [...absent, ...priors.notes, ...found.notes],
  };
}

type Models = Pick<LatentClass, "likelihood" | "bayesian" | "priorSensitivity" | "notes">;
const NOTHING: Models = { likelihood: null, bayesian: null, priorSensitivity: null, notes: [] };

function models(worktop: Worktop, planned: Planned, input: LatentInput, priors: ModelPriors): Models {
  const { level } = worktop.interval;
  const seed = worktop.seedOf(`latent class ${planned.id}`);
  const { values, notes } = worktop.compute(likelihoodModel, input, { level, seed, starts: STARTS });
  const believed = bayesianModelOf(worktop, input, priors, seed);
  return {
    likelihood: values,
    bayesian: believed.bayesian,
    priorSensitivity: believed.priorSensitivity,
    notes: [...notesAtPlace(notes, "likelihood"), ...believed.notes],
  };
}

function inputOf(planned: Planned, { populations }: LatentPeople): LatentInput {
  const { dependence } = planned;
  return {
    tests: planned.tests.map(({ id }) => id),
    populations: populations.map(({ label, patterns }) => ({
      label,
      patterns: patterns.map(({ reactive, people }) => ({ reactive: [...reactive], people })),
    })),
    dependence:
      typeof dependence === "string" ? { kind: dependence } : { kind: "pairs", pairs: pairsOf(planned) },
  };
}

function pairsOf({ dependence }: Planned): { first: string; second: string }[] {
  if (typeof dependence === "string") return [];
  return dependence.pairs.map(([first = "", second = ""]) => ({ first, second }));
}

/** Each kit against the reference as if that never erred: the people of the model with both results. */
function naiveOf(
  worktop: Worktop,
  tests: readonly ModelTest[],
  { populations }: LatentPeople,
): LatentClass["naive"] {
  const reference = tests.findIndex((test) => test.reference);
  if (reference < 0) return [];
  const patterns = populations.flatMap((population) => population.patterns);
  return tests.flatMap(({ id }, place) => {
    if (place === reference) return [];
    const people = (kit: boolean, status: boolean) =>
      patterns
        .filter(({ reactive }) => reactive[place] === kit && reactive[reference] === status)
        .reduce((sum, pattern) => sum + pattern.people, 0);
    const right = { positive: people(true, true), negative: people(false, false) };
    return [
      {
        test: id,
        sensitivity: worktop.proportion(right.positive, right.positive + people(false, true)),
        specificity: worktop.proportion(right.negative, right.negative + people(true, false)),
      },
    ];
  });
}

/** Why there is no model. */
function absentNotes(tests: readonly ModelTest[], { counted, populations }: LatentPeople): Note[] {
  const notes = tests
    .filter(({ set }) => set === undefined)
    .map(({ id }) =>
      note(
        "no_observations",
        "tests",
        `the records hold no results of ${id}: its kit, specimen type and reader`,
      ),
    );
  if (notes.length === 0 && counted === 0) {
    notes.push(note("no_observations", "people", "nobody has a result that counts"));
  }
  if (populations.length > MOST_POPULATIONS) {
    const message = `${populations.length} populations, more than the ${MOST_POPULATIONS} that can be reckoned with: choose a coarser stratum`;
    notes.push(note("too_many_populations", "populations", message));
  }
  return notes;
}
