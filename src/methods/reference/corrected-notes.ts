import { type Note, note } from "../../core/note.ts";
import { dependenceBounds } from "../algorithms/dependence-bounds.ts";
import { notesAt } from "../notes-at.ts";
import type { CorrectedInput, CorrectedValues } from "./corrected.ts";
import type { DrawnReference } from "./drawn-correction.ts";

const ALL = ["corrected", "prevalence", "formula", "likelihood", "delta", "correlation"];

/** Nobody was observed. */
export function emptyNotes(): Note[] {
  const paths = [...ALL, "apparent", "simulated", "admissible"];
  return notesAt("no_observations", paths, "nobody was observed");
}

interface Noted {
  readonly input: CorrectedInput;
  readonly reference: DrawnReference;
  readonly known: boolean;
  readonly interval: CorrectedValues["interval"];
}

export function correctedNotes(values: CorrectedValues, noted: Noted): Note[] {
  const notes: Note[] = [];
  for (const name of ["sensitivity", "specificity"] as const) {
    const who = name === "sensitivity" ? "positive" : "negative";
    if (values.apparent[name].value === null) {
      notes.push(note("no_observations", `apparent.${name}`, `nobody was reference ${who}`));
    } else if (values.apparent[name].lower === null) {
      const message = `less than one person is reference ${who}: no limits`;
      notes.push(note("too_few", `apparent.${name}`, message));
    }
  }
  if (values.apparent.prevalence.lower === null) {
    notes.push(note("too_few", "apparent.prevalence", "less than one person: no limits"));
  }
  notes.push(...drawNotes(values));
  if (values.formula.prevalence === null) return [...notes, ...undefinedNotes(noted)];
  return [...notes, ...outsideNotes(values), ...correlationNotes(values, noted), ...widthNotes(noted)];
}

function undefinedNotes({ reference }: Noted): Note[] {
  if (!(reference.sensitivity.centre + reference.specificity.centre > 1)) {
    const message = "sensitivity + specificity of the reference is 1 or less: it says nothing of the truth";
    return notesAt("uninformative_reference", ALL, message);
  }
  const message =
    "the share of reference positive is one that errors alone would give: nobody, or everybody, would have the condition";
  return notesAt("incompatible", ALL, message);
}

function drawNotes({ simulated, interval }: CorrectedValues): Note[] {
  const notes: Note[] = [];
  if (simulated.undefinedDraws > 0) {
    const message = `${simulated.undefinedDraws} draws have no correction and were left out`;
    notes.push(note("undefined_draws", "simulated", message));
    if (simulated.sensitivity.value === null) {
      notes.push(note("undefined_draws", "prevalence", message));
      if (interval === "simulated") notes.push(note("undefined_draws", "corrected", message));
    }
  }
  if (simulated.cutDraws > 0) {
    const message = `${simulated.cutDraws} draws left 0 to 1 and were cut: many of them say that what is stated of the reference fits badly`;
    notes.push(note("cut_draws", "simulated", message));
  }
  return notes;
}

function outsideNotes(values: CorrectedValues): Note[] {
  const notes: Note[] = [];
  for (const name of ["sensitivity", "specificity"] as const) {
    const raw = values.formula[name] ?? 0;
    if (raw < 0 || raw > 1) {
      const code = raw > 1 ? "above_one" : "below_zero";
      const message = `by the formula the ${name} is ${raw > 1 ? "above 1" : "below 0"}: what is stated of the reference and its covariance can't hold, ${values.likelihood[name].lower === null ? "and chance hardly explains it" : "but for chance; the limits tell what would still fit"}`;
      const paths = [`corrected.${name}`, `likelihood.${name}`, `delta.${name}`];
      notes.push(...notesAt(code, paths, message));
    }
  }
  const { delta } = values;
  for (const name of ["sensitivity", "specificity"] as const) {
    if (delta[`${name}Error`] === 0) {
      const message = "a standard error of 0 from an empty cell does not mean certainty";
      notes.push(note("no_width", `delta.${name}`, message));
    }
  }
  return notes;
}

/** A covariance that kit and reference can't have, or no variation for it to speak of. */
function correlationNotes({ formula, correlation }: CorrectedValues, { input, reference }: Noted): Note[] {
  const notes: Note[] = [];
  const truths = [
    ["diseased", "sensitivity"],
    ["nondiseased", "specificity"],
  ] as const;
  for (const [truth, name] of truths) {
    const kit = Math.min(1, Math.max(0, formula[name] ?? 0));
    const { least, most } = dependenceBounds(kit, reference[name].centre).covariance;
    const stated = input.covariance[truth];
    if (stated < least - ROUNDING || stated > most + ROUNDING) {
      const message = `among the ${truth} a covariance of ${stated} is not possible with this reference and the corrected kit: it could be ${shown(least)} to ${shown(most)}`;
      const paths = [`corrected.${name}`, `likelihood.${name}`, `correlation.${truth}`];
      notes.push(...notesAt("impossible_covariance", paths, message));
    } else if (correlation[truth] === null) {
      const message = "kit or reference never errs here: there is no correlation";
      notes.push(note("no_variation", `correlation.${truth}`, message));
    }
  }
  return notes;
}

const ROUNDING = 1e-9;

/** Rounded towards 0, so that the bound shown is itself allowed. */
function shown(bound: number): string {
  return String(Math.trunc(bound * 1e6) / 1e6);
}

function widthNotes({ known, interval }: Noted): Note[] {
  if (known || interval !== "likelihood") return [];
  const message = "the reference's accuracy is uncertain, yet is taken as known: too narrow";
  return [note("taken_as_known", "corrected", message)];
}
