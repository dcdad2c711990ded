import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { AT_RANDOM, completedMeasure, isBlind, uses } from "./completed.ts";
import { anything, extremeCases, type Part } from "./extreme-cases.ts";
import { type Cell, cellsOf, pooled } from "./fields.ts";
import { absentNote, verifiedNotes } from "./measure-notes.ts";
import { sensitivityExamples } from "./sensitivity-examples.ts";
import {
  AXES,
  Input,
  Options,
  type SensitivityInput,
  type SensitivityOptions,
  type SensitivityValues,
  Values,
} from "./sensitivity-fields.ts";
import { alongAxis, estimateAt, oddsRatiosOf, type Question, verdictOn } from "./verdict-at.ts";

export type { SensitivityInput, SensitivityOptions, SensitivityValues };

/**
 * How far the verdict on a kit holds if, among people with the same result, the diseased were more (or less)
 * readily verified than the others.
 *
 * An odds ratio of verification of 2 means that the diseased had twice the odds of being verified; the odds of
 * disease among the unverified are then half of those among the verified. 1 is the assumption of Begg and
 * Greenes. The data can't say which odds ratio is true: this shows what hangs on it.
 *
 * @param input   people by stratum, result and what is known of their true state; what the kit must show
 * @param options rule of the verdict; range of odds ratios, how finely
 * @returns estimates, verdicts and the odds ratios at which the verdict changes, along three axes and on a map.
 *   `null` with a note where a cell has people but nobody verified: bounds remain
 * Behaves badly where a cell's verified people are all of one kind: no odds ratio changes that cell, the bounds do.
 * Source: kosinski2003
 */
export function sensitivityToVerification(
  input: SensitivityInput,
  options: SensitivityOptions,
): Finding<SensitivityValues> {
  if (options.lowest > 1) throw new InputError(["options", "lowest"], "at most 1", options.lowest);
  if (options.highest < 1) throw new InputError(["options", "highest"], "at least 1", options.highest);
  const cells = cellsOf(input.strata);
  const question: Question = { cells, criterion: input.criterion, options };
  const oddsRatios = oddsRatiosOf(options);
  const atRandom = estimateAt(question, AT_RANDOM);
  const verdict = verdictOn(question, atRandom);
  const axes = {
    both: alongAxis(question, "both", oddsRatios),
    reactive: alongAxis(question, "reactive", oddsRatios),
    nonreactive: alongAxis(question, "nonreactive", oddsRatios),
  };
  const map = oddsRatios.flatMap((reactive) =>
    oddsRatios.map((nonreactive) => {
      const estimate = estimateAt(question, { reactive, nonreactive });
      return { reactive, nonreactive, estimate, verdict: verdictOn(question, estimate) };
    }),
  );
  const verdictHolds =
    map.every((point) => point.verdict === verdict) && AXES.every((axis) => axes[axis].borders.length === 0);
  const values: SensitivityValues = {
    atRandom,
    verdict,
    unverified: {
      reactive: pooled(cells, "reactive").unverified,
      nonreactive: pooled(cells, "nonreactive").unverified,
    },
    verdictHolds,
    axes,
    map,
    bounds: boundsOf(cells, input),
  };
  return { values, notes: notesOn(question, values) };
}

function boundsOf(cells: readonly Cell[], { criterion }: SensitivityInput): SensitivityValues["bounds"] {
  const [reactive, nonreactive] = [pooled(cells, "reactive"), pooled(cells, "nonreactive")];
  const reach = { reactive: anything(reactive), nonreactive: anything(nonreactive) };
  const { lowest, highest } = extremeCases({ reactive, nonreactive }, reach)[criterion.measure];
  const shareOf = ({ count, total }: Part) => (total === 0 ? null : count / total);
  return { lowest: shareOf(lowest), highest: shareOf(highest) };
}

function notesOn({ cells, criterion, options }: Question, values: SensitivityValues): Note[] {
  const notes = verifiedNotes(cells, "atRandom");
  const found = completedMeasure(cells, criterion.measure);
  if (found === null) {
    const absent = absentNote(cells, criterion.measure, "atRandom");
    notes.push(absent, ...["axes", "map"].map((path) => ({ ...absent, path })));
  } else if (found.logitError === null) {
    const message = `the estimate is ${found.value}, where the delta method gives no error${
      options.rule === "interval" ? ": ask for the rule point, and read the bounds" : ""
    }`;
    notes.push(...["atRandom", "axes", "map"].map((path) => note("at_the_edge", path, message)));
  } else {
    notes.push(...gapNotes(cells, values));
  }
  for (const cell of cells) {
    const { diseased, nondiseased, unverified, label, result } = cell;
    if (!uses(criterion.measure, result) || isBlind(cell) || unverified === 0) continue;
    if (diseased > 0 && nondiseased > 0) continue;
    const kind = diseased === 0 ? "nondiseased" : "diseased";
    const message = `all verified ${result} people of ${label} were ${kind}: no odds ratio changes what the ${unverified} unverified are taken to be, only the bounds show it`;
    notes.push(note("one_kind_only", "axes", message));
  }
  const message = "in this extreme case there is nobody of the kind that this counts";
  if (values.bounds.lowest === null) notes.push(note("no_people", "bounds.lowest", message));
  if (values.bounds.highest === null) notes.push(note("no_people", "bounds.highest", message));
  return notes;
}

/** Beside the measure asked for, points and borders carry others, which may be absent on their own. */
function gapNotes(cells: readonly Cell[], { axes }: SensitivityValues): Note[] {
  const notes: Note[] = [];
  for (const axis of AXES) {
    for (const [at, point] of axes[axis].points.entries()) {
      for (const measure of ["sensitivity", "specificity"] as const) {
        if (point[measure] !== null) continue;
        notes.push(absentNote(cells, measure, `axes.${axis}.points.${at}.${measure}`));
      }
    }
    for (const [at, border] of axes[axis].borders.entries()) {
      for (const name of ["unverifiedReactive", "unverifiedNonreactive"] as const) {
        if (border[name] !== null) continue;
        const message = "all people with this result were verified";
        notes.push(note("all_verified", `axes.${axis}.borders.${at}.${name}`, message));
      }
    }
  }
  return notes;
}

export const sensitivity = defineMethod({
  id: "verification.sensitivity",
  version: 1,
  title: "If the diseased were verified more readily",
  question: "Does the verdict hold if verification hung on the disease itself, and not only on the result?",
  formula:
    "odds of disease among the unverified = odds among the verified with the same result / odds ratio of verification. Expected diseased = verified diseased + unverified × share; measures as in verification.begg_greenes, errors by the delta method with the odds ratio fixed. Borders: roots of limit = threshold in the log odds ratio",
  caution:
    "the data say nothing about the odds ratio: a range must come from how people were chosen for verification. The intervals count chance alone, with the odds ratio taken as known. A verdict that changes within a believable range is no verdict",
  sources: ["kosinski2003", "begg1983"],
  input: Input,
  options: Options,
  values: Values,
  run: sensitivityToVerification,
  examples: sensitivityExamples,
});
