import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { type BinaryLine, sharesAt, whyUnbounded } from "./binary-line.ts";
import { detectionFit } from "./detection-fit.ts";
import { detectionLimitExamples } from "./detection-limit-examples.ts";
import {
  type DetectionInput,
  type DetectionOptions,
  type DetectionValues,
  type FitValues,
  Input,
  Options,
  Values,
} from "./detection-limit-fields.ts";

export type { DetectionInput, DetectionOptions, DetectionValues };

/**
 * How little of the analyte a kit still finds, from a dilution panel: the concentrations at which a device is
 * reactive with probabilities asked for, by a probit and by a logit line over log10 of the concentration.
 *
 * @param input   devices reactive of tested, by concentration and run; blanks; what lack of fit does to the limits
 * @param options level; probabilities, 0.05, 0.5 and 0.95 where nothing else is said
 * @returns concentrations in the unit given, fiducial limits. `null` with a note: `separated` where no concentration
 *   shows both results in turn (the step is then bracketed by `noneUpTo` and `allFrom`), `all_alike`, `one_value`,
 *   `falls`; limits with `slope_unclear` where the slope can't be told from 0
 * @throws InputError where more are reactive than were tested
 * Behaves badly with few concentrations in the region where the share changes, with replicates of one dilution
 * (not independent), and at high probabilities, where probit and logit part
 * Sources: finney1971, fieller1954; silvapulle1981 for when a line exists
 */
export function detectionLimitOf(input: DetectionInput, options: DetectionOptions): Finding<DetectionValues> {
  requireCounts(input);
  const used = input.levels.filter(({ tested }) => tested > 0);
  const rows = used.map(({ concentration, reactive, tested }) => ({
    x: Math.log10(concentration),
    count: reactive,
    total: tested,
  }));
  const reason = rows.length === 0 ? "all_alike" : whyUnbounded(rows);
  const asked = { rows, lackOfFit: input.lackOfFit, options };
  const probit = reason === null ? detectionFit(asked, "probit") : null;
  const logit = reason === null ? detectionFit(asked, "logit") : null;
  const values: DetectionValues = {
    probit: probit?.values ?? noFit(options),
    logit: logit?.values ?? noFit(options),
    rows: input.levels.map(({ concentration, reactive, tested }) => ({
      concentration,
      reactive: estimateProportion(reactive, tested, { level: options.level }),
      byProbit: heightAt(probit?.line, concentration),
      byLogit: heightAt(logit?.line, concentration),
    })),
    ...stepOf(used),
    observed: options.probabilities.map((probability) => ({
      probability,
      concentration: lowestReaching(used, probability),
    })),
    blank:
      input.blank && estimateProportion(input.blank.reactive, input.blank.tested, { level: options.level }),
  };
  const notes = [...(probit?.notes ?? []), ...(logit?.notes ?? [])];
  if (reason !== null) notes.push(...notesAt(reason, ["probit", "logit", "rows"], REASONS[reason]));
  return { values, notes: [...notes, ...panelNotes(input, values)] };
}

const REASONS = {
  all_alike: "all devices have the same result: a line has nothing to go by",
  one_value: "all devices were run at one concentration: a line needs two",
  separated:
    "no device is reactive below the first that fails and none fails above: the steepest line fits best. The step lies between noneUpTo and allFrom; test concentrations between them",
  separated_downwards: "devices are reactive below some concentration and not above it: look for a mix-up",
} as const;

function requireCounts({ levels, blank }: DetectionInput): void {
  levels.forEach(({ reactive, tested }, place) => {
    if (reactive <= tested) return;
    throw new InputError(["input", "levels", place, "reactive"], `at most tested, ${tested}`, reactive);
  });
  if (blank !== null && blank.reactive > blank.tested) {
    throw new InputError(["input", "blank", "reactive"], `at most tested, ${blank.tested}`, blank.reactive);
  }
}

const ABSENT = { value: null, lower: null, upper: null };

function noFit({ probabilities }: DetectionOptions): FitValues {
  return {
    intercept: ABSENT,
    interceptError: null,
    slope: ABSENT,
    slopeError: null,
    covariance: null,
    fit: { deviance: null, pearson: null, degreesOfFreedom: null, p: null, factor: null, g: null },
    concentrations: probabilities.map((probability) => ({
      probability,
      log10: ABSENT,
      concentration: ABSENT,
    })),
    curve: [],
  };
}

function heightAt(line: BinaryLine | undefined, concentration: number): number | null {
  if (line === undefined) return null;
  return sharesAt(line.link, line.intercept + line.slope * Math.log10(concentration)).yes;
}

type Levels = DetectionInput["levels"];

/** Runs at one concentration put together, from the highest concentration down. */
function downwards(levels: Levels): Levels {
  const byConcentration = new Map<number, Levels[number]>();
  for (const { concentration, reactive, tested } of levels) {
    const before = byConcentration.get(concentration);
    byConcentration.set(concentration, {
      concentration,
      reactive: reactive + (before?.reactive ?? 0),
      tested: tested + (before?.tested ?? 0),
    });
  }
  return [...byConcentration.values()].sort((one, other) => other.concentration - one.concentration);
}

function stepOf(levels: Levels): { noneUpTo: number | null; allFrom: number | null } {
  const reactive = levels.filter((level) => level.reactive > 0).map(({ concentration }) => concentration);
  const lowest = Math.min(...reactive);
  const below = levels.map(({ concentration }) => concentration).filter((at) => at < lowest);
  return { noneUpTo: below.length === 0 ? null : Math.max(...below), allFrom: lowestReaching(levels, 1) };
}

/** Going down, the last concentration before the share falls below a probability. */
function lowestReaching(levels: Levels, probability: number): number | null {
  let lowest: number | null = null;
  for (const { concentration, reactive, tested } of downwards(levels)) {
    if (reactive / tested < probability) break;
    lowest = concentration;
  }
  return lowest;
}

function panelNotes(input: DetectionInput, values: DetectionValues): Note[] {
  const notes: Note[] = input.levels.flatMap(({ tested }, place) =>
    tested > 0 ? [] : [note("no_observations", `rows.${place}`, "no device was run here: left out")],
  );
  const message = "some device was reactive at the lowest concentration tested";
  if (values.noneUpTo === null) notes.push(note("no_such_concentration", "noneUpTo", message));
  const failed = "some device failed at the highest concentration tested";
  if (values.allFrom === null) notes.push(note("no_such_concentration", "allFrom", failed));
  values.observed.forEach(({ concentration }, place) => {
    if (concentration !== null) return;
    const text = "not even the highest concentration tested reaches it";
    notes.push(note("no_such_concentration", `observed.${place}.concentration`, text));
  });
  if (input.blank === null) {
    notes.push(note("no_blanks", "blank", "no blanks were run: false reactivity is not known"));
  } else if (input.blank.tested === 0) {
    notes.push(note("no_observations", "blank", "no blank was run"));
  } else if (input.blank.reactive > 0) {
    const text =
      "blanks were reactive: the lines take false reactivity as none, and read low concentrations too favourably";
    notes.push(note("background", "blank", text));
  }
  return notes;
}

export const rocDetectionLimit = defineMethod({
  id: "roc.detection_limit",
  version: 1,
  title: "Limit of detection from a dilution panel",
  question: "How little of the analyte does the kit still find, with what probability?",
  formula:
    "probit: P = Phi(a + b log10 c); logit: ln(P / (1 - P)) = a + b log10 c; a and b likeliest, errors from the expected information. c(P) = 10^((link(P) - a) / b), link the normal quantile or the log odds; fiducial limits: all x with (a + b x - link(P))² <= t² h variance(a + b x); they exist while g = t² h variance(b) / b² < 1. h = max(1, Pearson's chi-square / (rows - 2)) where limits are widened (t of rows - 2 degrees of freedom), else 1 (normal quantile)",
  caution:
    "the concentration found with probability 0.95 lies in a tail where probit and logit part: compare them. Dilutions made once and run many times share their error, which widening mends only where runs of a concentration are separate rows. A panel of dilutions is not the range of real specimens. False reactivity of blanks is not in the lines",
  sources: ["finney1971", "fieller1954", "silvapulle1981"],
  input: Input,
  options: Options,
  values: Values,
  run: detectionLimitOf,
  examples: detectionLimitExamples,
});
