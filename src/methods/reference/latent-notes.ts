import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import type { LatentData } from "./latent-data.ts";
import type { ExpectedPattern } from "./latent-expected.ts";
import type { LatentInput } from "./latent-fields.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import type { Found } from "./latent-search.ts";

/** Where the design itself can't tell the unknowns apart: what to add. */
export function designNotes(input: LatentInput, free: number, unknowns: number, rank: number): Note[] {
  const what = input.dependence.kind === "independent" ? "" : "; or let fewer tests depend on one another";
  const missing =
    unknowns > free
      ? `${free} free counts for ${unknowns} unknowns`
      : `${unknowns} unknowns of which only ${rank} show in the counts`;
  const message = `not identifiable: ${missing}. No number of people helps. Add a test that errs on its own, or a population with another prevalence in which the tests err alike${what}; or state beforehand what is known of the tests`;
  return notesAt("not_identifiable", ["tests", "populations", "couplings", "fit", "search"], message);
}

/** Where these data can't tell the unknowns apart although the design could. */
export function dataNotes(unknown: readonly number[], several: boolean, names: readonly string[]): Note[] {
  const which = several
    ? "different answers fit equally well"
    : `${unknown.map((place) => names[place]).join(", ")} can't be told from the rest`;
  const message = `not identified by these counts: ${which}. Populations whose prevalences are alike, or tests that hardly tell people apart, do that. Add a test or a population that differs`;
  return notesAt("not_identified_here", ["tests", "populations", "couplings", "patterns"], message);
}

/** Below this many expected people in some pattern the chi-square distribution is no longer near. */
const FEW = 5;

export function fitNotes(
  input: LatentInput,
  found: Found,
  patterns: readonly ExpectedPattern[],
  freedom: number,
  data: LatentData,
): Note[] {
  const notes: Note[] = [];
  if (freedom <= 0) {
    const message = "no degree of freedom is left: the fit can't be tested, nor the independence it rests on";
    notes.push(note("no_freedom", "fit.p", message));
  } else if (patterns.some(({ expected }) => expected < FEW)) {
    const message = `fewer than ${FEW} people are expected with some pattern: this p-value is rough`;
    notes.push(note("few_expected", "fit.p", message));
  }
  if (data.groups.length > input.populations.length) {
    const message =
      "people with different tests done are held to be alike: that a test was not done must not hang on the condition";
    notes.push(note("missing_tests", "fit", message));
  }
  if (input.dependence.kind === "independent") {
    const message =
      "tests are taken to err independently given the condition; where they err together, they look better than they are";
    notes.push(note("independence", "tests", message));
  }
  if (!found.best.converged) {
    notes.push(note("not_converged", "search.converged", "the search ended before it stood at a maximum"));
  }
  patterns.forEach(({ residual, diseased }, place) => {
    const message = "the fitted model leaves no room for this pattern, or for any other";
    if (residual === null) notes.push(note("no_variation", `patterns.${place}.residual`, message));
    if (diseased === null) notes.push(note("no_variation", `patterns.${place}.diseased`, message));
  });
  return notes;
}

/** Tests that are worse than chance under the names that the classes bear. */
export function chanceNotes(theta: Float64Array, { tests }: LatentData, layout: LatentLayout): Note[] {
  return Array.from({ length: tests }, (_, test) => test).flatMap((test) => {
    const sensitivity = fromLogit(theta[layout.reactive(0, test)] as number);
    const falsely = fromLogit(theta[layout.reactive(1, test)] as number);
    if (sensitivity > falsely) return [];
    const message =
      "sensitivity + specificity is not above 1: by the other tests, a reactive result speaks against the condition";
    return [note("worse_than_chance", `tests.${test}`, message)];
  });
}

/** What each unknown is called, by place. */
export function namesOf(input: LatentInput, data: LatentData, layout: LatentLayout): string[] {
  const names = new Array<string>(layout.size).fill("dependence");
  input.populations.forEach(({ label }, place) => {
    names[layout.prevalence(place)] = `prevalence of ${label}`;
  });
  input.tests.forEach((test, place) => {
    names[layout.reactive(0, place)] = `sensitivity of ${test}`;
    names[layout.reactive(1, place)] = `specificity of ${test}`;
  });
  data.pairs.forEach(([first, second], place) => {
    const pair = `${input.tests[first]} and ${input.tests[second]}`;
    names[layout.dependence(0, place)] = `dependence of ${pair} with the condition`;
    names[layout.dependence(1, place)] = `dependence of ${pair} without the condition`;
  });
  return names;
}
