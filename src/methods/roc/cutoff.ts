import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { percentileLimits } from "../clusters/bootstrap-limits.ts";
import { notesAt } from "../notes-at.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { emptyNotes } from "./area-values.ts";
import { chooseCutoff, type Judged, judgedAt, objectiveOf } from "./cutoff-choice.ts";
import { crossValidated, redrawnCutoffs } from "./cutoff-corrected.ts";
import { cutoffExamples } from "./cutoff-examples.ts";
import {
  type CutoffInput as Asked,
  type CutoffOptions as Chosen,
  CutoffInput,
  CutoffOptions,
  CutoffValues,
  type CutoffValues as Values,
} from "./cutoff-fields.ts";
import { type Ladder, ladderOf, readingAt } from "./ladder.ts";

const UNKNOWN = { sensitivity: null, specificity: null, youden: null, objective: null };
const NONE = { value: null, lower: null, upper: null };

/**
 * Which cutoff does a rule choose, and how good will it be in other people?
 *
 * @param input   one reading a person in each group, which readings speak for the condition, and the rule
 * @param options level, kind of correction, replicates or splits, seed
 * @returns `null` with a note where a group is empty, or where no cutoff is better than calling nobody reactive;
 *   corrections take two people in each group
 * @throws InputError where more is to be drawn than a page can wait for
 * Behaves badly with few people: the cutoff then jumps from sample to sample. Its percentile limits are a guide
 * only, most of all under `youden`, whose cutoff converges so slowly that the bootstrap has no proof
 * Sources: youden1950, metz1978, efron1993, perkins2006
 */
export function chosenCutoff(input: Asked, options: Chosen): Finding<Values> {
  const ladder = ladderOf(input.positives, input.negatives, input.direction);
  const { totalPositives, totalNegatives } = ladder;
  if (totalPositives === 0 || totalNegatives === 0) return nothing(ladder);
  const { rung, equals } = chooseCutoff(ladder, input.rule);
  const seen = judgedAt(ladder, rung);
  const value = rung >= 0 ? readingAt(ladder, rung) : null;
  const { youden, objective } = measuresOf(input.rule, seen);
  const base = {
    positives: totalPositives,
    negatives: totalNegatives,
    equallyGood: equals,
    sensitivity: estimateProportion(Math.round(seen.sensitivity * totalPositives), totalPositives, options),
    specificity: estimateProportion(Math.round(seen.specificity * totalNegatives), totalNegatives, options),
    youden,
    objective,
  };
  const notes = choiceNotes(ladder, rung, equals, input.rule);
  if (totalPositives < 2 || totalNegatives < 2) {
    const message = "choosing without one person takes two people in each group";
    notes.push(...notesAt("one_person", ["cutoff", "corrected", "optimism"], message));
    const values = { ...base, cutoff: { ...NONE, value }, corrected: UNKNOWN, optimism: UNKNOWN };
    return { values, notes };
  }
  const { limits, ...elsewhere } = inOtherPeople(ladder, input.rule, seen, options);
  const values: Values = { ...base, cutoff: { value, ...limits }, ...elsewhere };
  return { values, notes: [...notes, ...limitNotes(values), ...correctionNotes(options)] };
}

function measuresOf(rule: Asked["rule"], judged: Judged) {
  const youden = judged.sensitivity + judged.specificity - 1;
  return { ...judged, youden, objective: objectiveOf(rule, judged) };
}

/** Where the cutoff would lie, and how good it would be, had it been chosen in other people. */
function inOtherPeople(ladder: Ladder, rule: Asked["rule"], seen: Judged, options: Chosen) {
  const drawn = redrawnCutoffs(ladder, rule, options);
  const expected =
    options.correction === "bootstrap"
      ? {
          sensitivity: within(seen.sensitivity - drawn.optimism.sensitivity),
          specificity: within(seen.specificity - drawn.optimism.specificity),
        }
      : crossValidated(ladder, rule, options);
  const [here, corrected] = [measuresOf(rule, seen), measuresOf(rule, expected)];
  const { lower, upper } = percentileLimits(drawn.cutoffs, options.level);
  return {
    limits: { lower: finiteOrNull(lower), upper: finiteOrNull(upper) },
    corrected,
    optimism: {
      sensitivity: here.sensitivity - corrected.sensitivity,
      specificity: here.specificity - corrected.specificity,
      youden: here.youden - corrected.youden,
      objective: here.objective - corrected.objective,
    },
  };
}

function within(share: number): number {
  return Math.min(1, Math.max(0, share));
}

function finiteOrNull(limit: number): number | null {
  return Number.isFinite(limit) ? limit : null;
}

function choiceNotes(ladder: Ladder, rung: number, equals: number, rule: Asked["rule"]): Note[] {
  const notes: Note[] = [];
  const message =
    "these limits are as of a cutoff fixed beforehand; chosen in the same people, both estimates flatter: read the corrected ones, and confirm the cutoff in other people";
  notes.push(...notesAt("chosen_here", ["sensitivity", "specificity"], message));
  if (rung < 0) {
    const words = "no cutoff serves the rule better than calling nobody reactive";
    notes.push(note("nobody_reactive", "cutoff", words));
  } else if (rung === ladder.keys.length - 1) {
    const words = "no cutoff serves the rule better than calling everybody reactive";
    notes.push(note("everybody_reactive", "cutoff", words));
  }
  if (equals > 0) {
    const which = rule.kind === "sensitivity_at_least" ? "most" : "fewest";
    const words = `${equals} other cutoffs are as good by this rule; this one calls the ${which} people reactive`;
    notes.push(note("several_best", "cutoff", words));
  }
  if (rule.kind === "youden") {
    const words =
      "a cutoff by Youden's index settles slowly as people are added: its limits are a guide only";
    notes.push(note("slow_cutoff", "cutoff", words));
  }
  return notes;
}

function limitNotes({ cutoff }: Values): Note[] {
  const missing = (["lower", "upper"] as const).filter((side) => cutoff[side] === null);
  const message = "in some of the people drawn no cutoff is better than calling nobody reactive";
  return missing.map((side) => note("unbounded", `cutoff.${side}`, message));
}

function correctionNotes({ correction }: Chosen): Note[] {
  if (correction !== "bootstrap") return [];
  const message =
    "the bootstrap leaves part of the optimism, about a third under youden; cross-validation hardly any";
  return [note("optimism_left", "corrected", message)];
}

function nothing(ladder: Ladder): Finding<Values> {
  const { totalPositives, totalNegatives } = ladder;
  const values: Values = {
    positives: totalPositives,
    negatives: totalNegatives,
    cutoff: NONE,
    equallyGood: 0,
    sensitivity: estimateProportion(0, 0),
    specificity: estimateProportion(0, 0),
    youden: null,
    objective: null,
    corrected: UNKNOWN,
    optimism: UNKNOWN,
  };
  const paths = ["cutoff", "sensitivity", "specificity", "youden", "objective", "corrected", "optimism"];
  return { values, notes: emptyNotes(ladder, paths) };
}

export const rocCutoff = defineMethod({
  id: "roc.cutoff",
  version: 1,
  title: "A cutoff by a named rule",
  question: "Which cutoff does a rule choose, and how good will it be in other people?",
  formula:
    "youden: highest sensitivity + specificity - 1; cost: lowest prevalence (1 - sensitivity) false negative cost + (1 - prevalence)(1 - specificity) false positive cost; specificity_at_least: highest sensitivity among cutoffs with that specificity, sensitivity_at_least the other way. Bootstrap: optimism = mean over samples of (there, by the cutoff chosen there) - (in the people seen, by the same cutoff); corrected = seen - optimism. Cross-validation: everybody judged by a cutoff chosen in the other parts",
  caution:
    "a cutoff chosen and judged in the same people looks better than it is, most with few people. The correction is an average; it does not say how good this very cutoff is. The bootstrap leaves part of the optimism: in simulation about a third of it under youden. Fix the cutoff, then confirm it in other people",
  sources: ["youden1950", "metz1978", "efron1993", "perkins2006"],
  input: CutoffInput,
  options: CutoffOptions,
  values: CutoffValues,
  run: chosenCutoff,
  examples: cutoffExamples,
});
