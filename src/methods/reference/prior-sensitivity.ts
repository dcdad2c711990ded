import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chainDiagnostics } from "../../numeric/chain-diagnostics.ts";
import { sortedQuantile } from "../../numeric/sorted-quantile.ts";
import { chainOf } from "./bayesian-chain.ts";
import { type BayesianInput as Asked, BayesianInput } from "./bayesian-fields.ts";
import { bayesianModel } from "./bayesian-model.ts";
import { columnOf, unknownsOf } from "./bayesian-unknowns.ts";
import { type Alternative, alternativesTo } from "./prior-sensitivity-alternatives.ts";
import { sensitivityExamples } from "./prior-sensitivity-examples.ts";
import {
  type SensitivityOptions as Chosen,
  SensitivityOptions,
  SensitivityValues,
  type SensitivityValues as Values,
} from "./prior-sensitivity-fields.ts";

/** One unknown under one set of priors. */
interface Drawn {
  readonly parameter: string;
  readonly median: number;
  readonly lower: number;
  readonly upper: number;
  readonly standardDeviation: number;
  /** Standard error of the median from drawing; `null` where nothing varies. */
  readonly medianError: number | null;
  readonly rHat: number | null;
  readonly effective: number | null;
}

/**
 * What would be said of the tests and of the prevalence had other things been believed beforehand?
 *
 * The model of `reference.bayesian` under the priors stated, under the same with half and with twice the weight, with
 * flat priors for all accuracies, for all prevalences, and for each share in turn.
 *
 * @param input   as of `reference.bayesian`
 * @param options level, chains, draws kept and thrown away for each set of priors, seed
 * @throws InputError as `reference.bayesian`
 * Behaves badly where the counts hold little without the priors: chains under flat priors then move slowly, and
 * their shifts are rough (see `shiftError`)
 * Source: joseph1995 for the model
 */
export function priorSensitivity(input: Asked, options: Chosen): Finding<Values> {
  const alternatives = alternativesTo(input.priors);
  const drawn = alternatives.map((alternative) => underPriors(input, alternative, options));
  const stated = drawn[0] as readonly Drawn[];
  const values: Values = {
    alternatives: alternatives.map(({ name, changed }, place) => {
      const here = drawn[place] as readonly Drawn[];
      return {
        name,
        changed: [...changed],
        parameters: here.map((one, k) => reported(one, stated[k] as Drawn)),
        worstRHat: extreme(
          here.map(({ rHat }) => rHat),
          Math.max,
        ),
        fewestEffective: extreme(
          here.map(({ effective }) => effective),
          Math.min,
        ),
      };
    }),
    largest: [],
  };
  values.largest.push(...largestOf(values));
  return { values, notes: [...chainNotes(values, options), ...shiftNotes(values)] };
}

/** Every unknown under other priors; the same draws whatever other priors there are. */
export function underPriors(
  input: Asked,
  { priors }: Pick<Alternative, "priors">,
  { level, chains, draws, warmup, seed }: Chosen,
): Drawn[] {
  const model = bayesianModel({ ...input, priors });
  const run = Array.from({ length: chains }, (_, chain) => chainOf(model, seed, chain, { draws, warmup }));
  return unknownsOf(model).map((unknown) => {
    const columns = columnOf(unknown, run);
    const sorted = Float64Array.from(columns.flatMap((column) => [...column])).sort();
    const mean = sorted.reduce((sum, value) => sum + value, 0) / sorted.length;
    const squares = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const standardDeviation = Math.sqrt(squares / (sorted.length - 1));
    const { rHat, bulkEffective, tailEffective } = chainDiagnostics(columns, sorted);
    return {
      parameter: unknown.path,
      median: sortedQuantile(sorted, 0.5),
      lower: sortedQuantile(sorted, (1 - level) / 2),
      upper: sortedQuantile(sorted, (1 + level) / 2),
      standardDeviation,
      // That of a normal variable's median.
      medianError: bulkEffective === null ? null : standardDeviation * Math.sqrt(Math.PI / 2 / bulkEffective),
      rHat,
      effective:
        bulkEffective === null || tailEffective === null ? null : Math.min(bulkEffective, tailEffective),
    };
  });
}

function reported(here: Drawn, stated: Drawn): Values["alternatives"][0]["parameters"][0] {
  const { parameter, median, lower, upper, standardDeviation } = here;
  const known = stated.standardDeviation > 0;
  const error =
    here === stated ? 0 : Math.hypot(here.medianError ?? Number.NaN, stated.medianError ?? Number.NaN);
  const shiftError = known && !Number.isNaN(error) ? error / stated.standardDeviation : null;
  return {
    parameter,
    median,
    lower,
    upper,
    standardDeviation,
    shift: known ? (median - stated.median) / stated.standardDeviation : null,
    shiftError,
  };
}

function extreme(numbers: readonly (number | null)[], of: (...numbers: number[]) => number): number | null {
  const known = numbers.filter((number) => number !== null);
  return known.length > 0 ? of(...known) : null;
}

function largestOf({ alternatives }: Values): Values["largest"] {
  const [stated, ...others] = alternatives;
  if (others.length === 0) return [];
  return (stated?.parameters ?? []).map(({ parameter }, place) => {
    const size = (alternative: Values["alternatives"][0]) =>
      Math.abs(alternative.parameters[place]?.shift ?? 0);
    const farthest = others.reduce((a, b) => (size(b) > size(a) ? b : a));
    const { name, changed } = farthest;
    return { parameter, alternative: name, changed, shift: farthest.parameters[place]?.shift ?? null };
  });
}

/** Shifts of half a standard deviation change what would be said; less than that the limits take up. */
const SENSITIVE = 0.5;
/** Shifts within so many standard errors may come from drawing. */
const ERRORS = 3;
const MOST_R_HAT = 1.01;
const FEWEST_PER_CHAIN = 100;

function chainNotes({ alternatives, largest }: Values, { chains }: Chosen): Note[] {
  const notes = alternatives.flatMap(({ name, changed, worstRHat, fewestEffective, parameters }, place) => {
    const still = parameters.flatMap(({ shift, shiftError }, k) =>
      shift === null || shiftError === null
        ? [note("no_variation", `alternatives.${place}.parameters.${k}`, "the draws do not vary: no shift")]
        : [],
    );
    const path = `alternatives.${place}`;
    if (worstRHat === null || fewestEffective === null) {
      return [...still, note("no_variation", path, "the draws do not vary")];
    }
    if (worstRHat <= MOST_R_HAT && fewestEffective >= FEWEST_PER_CHAIN * chains) return still;
    const message = `under ${wordsOf(name, changed)} the chains do not agree well enough: R-hat ${worstRHat.toFixed(3)}, ${Math.floor(fewestEffective)} effective draws. These numbers are rough: ask for more draws`;
    return [...still, note("not_converged", path, message)];
  });
  largest.forEach(({ shift }, place) => {
    if (shift === null)
      notes.push(note("no_variation", `largest.${place}`, "the draws do not vary: no shift"));
  });
  if (alternatives.length === 1) {
    const message = "all priors are flat: there is nothing to weaken. What the counts can't tell stays open";
    notes.push(note("all_flat", "largest", message));
  }
  return notes;
}

function shiftNotes({ alternatives, largest }: Values): Note[] {
  return largest.flatMap(({ parameter, alternative, changed, shift }, place) => {
    const found = alternatives.find(({ name, changed: same }) => name === alternative && same === changed);
    const error = found?.parameters[place]?.shiftError ?? Number.POSITIVE_INFINITY;
    if (shift === null || Math.abs(shift) < Math.max(SENSITIVE, ERRORS * error)) return [];
    const message = `${parameter} rests on what was believed: under ${wordsOf(alternative, changed)} its median moves by ${shift.toFixed(1)} standard deviations`;
    return [note("prior_sensitive", `largest.${place}`, message)];
  });
}

function wordsOf(name: Alternative["name"], changed: readonly string[]): string {
  if (name === "flat_alone") return `a flat prior of ${changed.join(", ")}`;
  const words = {
    as_stated: "the priors stated",
    half_weight: "priors of half the weight",
    double_weight: "priors of twice the weight",
    flat_accuracy: "flat priors of every accuracy",
    flat_prevalence: "flat priors of every prevalence",
  };
  return words[name];
}

export const priorSensitivityMethod = defineMethod({
  id: "reference.prior_sensitivity",
  version: 1,
  title: "Latent class model under other priors",
  question: "What would be said had other things been believed beforehand?",
  formula:
    "posterior as of reference.bayesian, drawn anew for each set of priors: Beta(a, b) as stated, Beta(a / 2, b / 2), Beta(2 a, 2 b), Beta(1, 1) for every accuracy, for every prevalence, and for each share alone; a flat prior stays flat. Shift = (median - median as stated) / standard deviation as stated; its error from the effective draws, as of a normal variable's median",
  caution:
    "that nothing moves does not show that the priors are right, only that others of this kind say the same. Where everything moves, the study can't answer without the beliefs: say so, and show them. Draws are random: see shiftError",
  sources: ["joseph1995", "vehtari2021"],
  input: BayesianInput,
  options: SensitivityOptions,
  values: SensitivityValues,
  run: priorSensitivity,
  examples: sensitivityExamples,
});
