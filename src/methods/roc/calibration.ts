import type { Estimate } from "../../core/estimate.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { type BinaryRow, binaryLine, whyUnbounded } from "./binary-line.ts";
import { calibrationExamples } from "./calibration-examples.ts";
import {
  type CalibrationInput,
  type CalibrationOptions,
  type CalibrationValues,
  Input,
  Options,
  Values,
} from "./calibration-fields.ts";
import { brierOf, groupsOf, groupTestOf, groupValues, type Stack, stacksOf } from "./calibration-groups.ts";

export type { CalibrationInput, CalibrationOptions, CalibrationValues };

/**
 * Are an instrument's probabilities right? On the whole (intercept), in their spread (slope), group by group, and
 * by the mean squared distance from the truth (Brier), with its parts.
 *
 * The people must not be those from whom the instrument learned.
 *
 * @param input   probabilities of the people with the condition, and of those without
 * @param options level; number of groups; how near to 0 or 1 a probability may come for intercept and slope
 * @returns `null` with a note: `certain` for intercept and slope where probabilities are 0 or 1 and no edge is
 *   named; `separated` or `all_alike` where the likeliest line is without bound; `one_value` for the slope
 * @throws InputError for nobody at all
 * Behaves badly with few people with (or without) the condition; the test by groups hangs on the groups
 * Sources: cox1958, brier1950, murphy1973, stephenson2008, spiegelhalter1986calibration, hosmer1980
 */
export function calibrationOf(
  { positives, negatives }: CalibrationInput,
  options: CalibrationOptions,
): Finding<CalibrationValues> {
  if (positives.length + negatives.length === 0) {
    throw new InputError(["input"], "at least one person", 0);
  }
  const stacks = stacksOf(positives, negatives);
  const groups = groupsOf(stacks, options.groups);
  const notes: Note[] = [];
  const { large, recalibration, moved } = linesOf(stacks, options, notes);
  const values: CalibrationValues = {
    overall: overallOf(stacks, options.level, notes),
    large,
    recalibration,
    brier: brierOf(stacks, groups),
    groupTest: groupTestOf(groups),
    groups: groupValues(groups, options.level),
    moved,
  };
  return { values, notes: [...notes, ...scoreNotes(values)] };
}

function overallOf(stacks: readonly Stack[], level: number, notes: Note[]): CalibrationValues["overall"] {
  const people = stacks.reduce((sum, { total }) => sum + total, 0);
  const count = stacks.reduce((sum, stack) => sum + stack.count, 0);
  const predicted = stacks.reduce((sum, { probability, total }) => sum + probability * total, 0) / people;
  const observed = estimateProportion(count, people, { level });
  const difference = count / people - predicted;
  if (predicted === 0) {
    notes.push(note("nothing_predicted", "overall.ratio", "all probabilities are 0"));
    return { observed, predicted, difference, ratio: ABSENT };
  }
  const over = (part: number | null) => (part === null ? null : part / predicted);
  const ratio = { value: over(observed.value), lower: over(observed.lower), upper: over(observed.upper) };
  if (Object.values(ratio).every((part) => part === null || Number.isFinite(part))) {
    return { observed, predicted, difference, ratio };
  }
  notes.push(note("unbounded", "overall.ratio", "too large to be written as a number"));
  return { observed, predicted, difference, ratio: ABSENT };
}

const ABSENT: Estimate = { value: null, lower: null, upper: null };
const NO_LARGE: CalibrationValues["large"] = { intercept: ABSENT, standardError: null };
const NO_LINE: CalibrationValues["recalibration"] = {
  intercept: ABSENT,
  interceptError: null,
  slope: ABSENT,
  slopeError: null,
  chiSquare: null,
  p: null,
};

type Lines = Pick<CalibrationValues, "large" | "recalibration" | "moved">;

function linesOf(stacks: readonly Stack[], { level, edge }: CalibrationOptions, notes: Note[]): Lines {
  let moved = 0;
  const rows = stacks.map(({ probability, count, total }): BinaryRow => {
    const kept = Math.min(1 - edge, Math.max(edge, probability));
    if (kept !== probability) moved += total;
    return { x: Math.log(kept / (1 - kept)), count, total };
  });
  if (moved > 0) {
    const message = `${moved} probabilities nearer to 0 or 1 than ${edge} were moved to it`;
    notes.push(...notesAt("moved", ["large", "recalibration"], message));
  }
  const certain = rows.filter(({ x }) => !Number.isFinite(x)).reduce((sum, { total }) => sum + total, 0);
  if (certain > 0) {
    const message = `${certain} probabilities are 0 or 1, whose log odds are without bound: name an edge to move them to`;
    notes.push(...notesAt("certain", ["large", "recalibration"], message));
    return { large: NO_LARGE, recalibration: NO_LINE, moved };
  }
  const reason = whyUnbounded(rows);
  if (reason === "all_alike") {
    const message = "all people have the condition, or none: there is nothing to compare";
    notes.push(...notesAt(reason, ["large", "recalibration"], message));
    return { large: NO_LARGE, recalibration: NO_LINE, moved };
  }
  const reach = normalQuantile((1 + level) / 2);
  const large = largeOf(rows, reach);
  if (reason === null) return { large, recalibration: lineOf(rows, reach), moved };
  notes.push(note(reason, "recalibration", UNBOUNDED[reason]));
  return { large, recalibration: NO_LINE, moved };
}

const UNBOUNDED = {
  one_value: "everybody has the same probability: a slope can't be seen",
  separated: "no probability of a person with the condition is below one without: the slope is without bound",
  separated_downwards: "all people with the condition have the lower probabilities: look for a mix-up",
} as const;

function around(value: number, half: number): Estimate {
  return { value, lower: value - half, upper: value + half };
}

function largeOf(rows: readonly BinaryRow[], reach: number): CalibrationValues["large"] {
  const { intercept, interceptVariance } = binaryLine(rows, "logit", 1);
  const standardError = Math.sqrt(interceptVariance);
  return { intercept: around(intercept, reach * standardError), standardError };
}

function lineOf(rows: readonly BinaryRow[], reach: number): CalibrationValues["recalibration"] {
  const line = binaryLine(rows, "logit");
  const interceptError = Math.sqrt(line.interceptVariance);
  const slopeError = Math.sqrt(line.slopeVariance);
  const given = rows.reduce(
    (sum, { x, count, total }) =>
      sum + (count > 0 ? -count * softPlus(-x) : 0) + (total > count ? -(total - count) * softPlus(x) : 0),
    0,
  );
  const chiSquare = Math.max(0, 2 * (line.logLikelihood - given));
  return {
    intercept: around(line.intercept, reach * interceptError),
    interceptError,
    slope: around(line.slope, reach * slopeError),
    slopeError,
    chiSquare,
    p: chiSquareCdf(chiSquare, 2, "upper"),
  };
}

/** ln(1 + exp(x)). */
function softPlus(x: number): number {
  return Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));
}

function scoreNotes({ brier, groupTest, groups }: CalibrationValues): Note[] {
  const notes: Note[] = [];
  if (brier.standardError === null) {
    notes.push(note("one_person", "brier.standardError", "one person shows no spread"));
  }
  if (brier.scaled === null) {
    notes.push(note("all_alike", "brier.scaled", "all people have the condition, or none"));
  }
  if (brier.z === null) {
    const message = "all probabilities are 0, 1 or a half: if they were right the score could not vary";
    notes.push(...notesAt("no_variation", ["brier.z", "brier.p"], message));
  }
  if (groupTest.chiSquare === null) {
    const message =
      "somebody with a probability of 0 has the condition, or with 1 has it not: that can't be by chance";
    notes.push(...notesAt("impossible", ["groupTest.chiSquare", "groupTest.p"], message));
  } else if (
    groups.some(({ people, predicted }) => people * Math.min(predicted ?? 0, 1 - (predicted ?? 0)) < 5)
  ) {
    const message =
      "fewer than 5 people with or without the condition are expected in some group: this p-value is rough";
    notes.push(note("few_expected", "groupTest.p", message));
  }
  return notes;
}

export const rocCalibration = defineMethod({
  id: "roc.calibration",
  version: 1,
  title: "Are an instrument's probabilities right?",
  question: "When the instrument says 30 %, do 30 in 100 have the condition?",
  formula:
    "on the whole: ln odds = a + instrument's ln odds; spread: ln odds = a + b × instrument's ln odds; both likeliest, Wald limits. Brier = mean (p - y)² = reliability - resolution + uncertainty + within. Spiegelhalter: z = sum (y - p)(1 - 2p) / sqrt(sum (1 - 2p)² p (1 - p)). Groups: sum (observed - predicted)² / sum p (1 - p), groups degrees of freedom",
  caution:
    "on the people from whom the instrument learned, everything looks right. Where the prevalence differs from theirs, the intercept shows it, which is no fault of the instrument. The test by groups hangs on how people are grouped and finds anything with enough people: look at the table. A slope of 1 is no proof of right probabilities",
  sources: [
    "cox1958",
    "brier1950",
    "murphy1973",
    "stephenson2008",
    "spiegelhalter1986calibration",
    "hosmer1980",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: calibrationOf,
  examples: calibrationExamples,
});
