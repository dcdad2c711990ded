import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { curveRegressionExamples } from "./curve-regression-examples.ts";
import {
  type CurveRegressionInput,
  type CurveRegressionOptions,
  type CurveRegressionValues,
  Input,
  Options,
  Values,
} from "./curve-regression-fields.ts";
import { lineValues, NO_LINE } from "./line-values.ts";
import { rankCorrelation } from "./rank-correlation.ts";
import { type StudyEffects, studyEffects } from "./study-effects.ts";
import { requireStudies } from "./study-fields.ts";
import { type WeightedLine, weightedLine } from "./weighted-line.ts";

export type { CurveRegressionInput, CurveRegressionOptions, CurveRegressionValues };

/**
 * The summary curve of Moses and Littenberg: log odds ratios of the studies against a stand-in for their cutoffs,
 * by a straight line, turned back into a curve. For the student, and to read older papers by.
 *
 * @param input   fourfold tables of studies, how zeros are corrected, how studies are weighted
 * @param options level of the limits
 * @returns line, curve and rank correlation; `null` with the note `too_few_studies` for fewer than three studies or
 *   `no_variation` where all have the same S. Studies with nobody of one kind, or with a count left at 0, are left
 *   out, each with a note
 * @throws InputError where two studies bear one label
 * Behaves badly always: chance errors of S and of its relation to D are ignored, studies' sizes too (equal weights);
 * limits are not to be trusted. pooling.bivariate is what to report
 * Sources: moses1993, littenberg1993; spearman1904
 */
export function curveByRegression(
  input: CurveRegressionInput,
  options: CurveRegressionOptions,
): Finding<CurveRegressionValues> {
  requireStudies(input.studies);
  const { effects, notes } = studyEffects(input.studies, input.correction, "list");
  const weightOf = ({ variance }: StudyEffects) => (input.weights === "equal" ? 1 : 1 / variance);
  const points = effects.map((study) => ({
    x: study.logOddsWith + study.logOddsWithout,
    y: study.logOddsRatio,
    weight: weightOf(study),
  }));
  const line = weightedLine(points);
  const told = line === null ? NO_LINE : lineValues(line, options.level);
  if (line === null) notes.push(...noLineNotes(points.length));
  const list: CurveRegressionValues["list"] = input.studies.map(({ label }) => ({ label, ...NOWHERE }));
  for (const study of effects) {
    list[study.place] = {
      label: study.label,
      truePositiveRate: study.truePositiveRate,
      falsePositiveRate: study.falsePositiveRate,
      difference: study.logOddsRatio,
      sum: study.logOddsWith + study.logOddsWithout,
      weight: weightOf(study),
    };
  }
  const values: CurveRegressionValues = {
    line: told,
    oddsRatio: each(told.intercept, Math.exp, "oddsRatio", notes),
    equalPoint: each(told.intercept, (intercept) => proportionAt(intercept / 2), "equalPoint", notes),
    threshold: thresholdOf(effects, notes),
    curve: line === null ? [] : curveOf(line, effects, notes),
    list,
  };
  return { values, notes: [...notes, HISTORICAL] };
}

const NOWHERE = {
  truePositiveRate: null,
  falsePositiveRate: null,
  difference: null,
  sum: null,
  weight: null,
};

const HISTORICAL = note(
  "historical",
  "line",
  "chance errors of the studies are ignored: for teaching and for reading older papers; report pooling.bivariate",
);

function noLineNotes(studies: number): Note[] {
  const paths = ["line", "oddsRatio", "equalPoint"];
  return studies < 3
    ? notesAt("too_few_studies", paths, `${studies} studies can be used: a line with errors needs three`)
    : notesAt("no_variation", paths, "all studies have the same S: no line can be seen");
}

function proportionAt(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

function each(
  given: CurveRegressionValues["oddsRatio"],
  change: (value: number) => number,
  path: string,
  notes: Note[],
): CurveRegressionValues["oddsRatio"] {
  const one = (part: "value" | "lower" | "upper") => {
    const on = given[part];
    if (on === null) return null;
    const changed = change(on);
    if (Number.isFinite(changed)) return changed;
    notes.push(note("unbounded", `${path}.${part}`, "too large to be written as a number"));
    return null;
  };
  return { value: one("value"), lower: one("lower"), upper: one("upper") };
}

function thresholdOf(effects: readonly StudyEffects[], notes: Note[]): CurveRegressionValues["threshold"] {
  const found = rankCorrelation(
    effects.map((study) => [study.truePositiveRate, study.falsePositiveRate] as const),
  );
  if (found !== null) {
    return { spearman: found.value, p: found.p, by: found.exact ? "all_orders" : "t" };
  }
  const message = "fewer than three studies, or one of the two rates is the same in all";
  notes.push(...notesAt("no_variation", ["threshold.spearman", "threshold.p"], message));
  return { spearman: null, p: null, by: "none" };
}

const CURVE_POINTS = 51;

/** From D = a + b S: log odds of sensitivity = (a + (1 + b) log odds of 1 - specificity) / (1 - b). */
function curveOf(
  { intercept, slope }: WeightedLine,
  effects: readonly StudyEffects[],
  notes: Note[],
): CurveRegressionValues["curve"] {
  if (!(Math.abs(slope) < 1)) {
    const message = `the slope is ${slope.toPrecision(3)}, not between -1 and 1: the line is no rising curve`;
    notes.push(note("no_curve", "curve", message));
    return [];
  }
  const rates = effects.map(({ falsePositiveRate }) => falsePositiveRate);
  const [lowest, highest] = [Math.min(...rates), Math.max(...rates)];
  return Array.from({ length: CURVE_POINTS }, (_, step) => {
    const falsePositiveRate = lowest + ((highest - lowest) * step) / (CURVE_POINTS - 1);
    const logOdds = Math.log(falsePositiveRate / (1 - falsePositiveRate));
    return {
      falsePositiveRate,
      truePositiveRate: proportionAt((intercept + (1 + slope) * logOdds) / (1 - slope)),
    };
  });
}

export const curveRegression = defineMethod({
  id: "pooling.curve_regression",
  version: 1,
  title: "Summary curve by regression",
  question: "What curve of sensitivity against 1 - specificity did the older papers draw through studies?",
  formula:
    "D = ln odds(sensitivity) - ln odds(1 - specificity); S = their sum; D = a + b S by least squares; curve: ln odds(sensitivity) = (a + (1 + b) ln odds(1 - specificity)) / (1 - b); where sensitivity = specificity: ln odds = a / 2. Threshold effect: Spearman's rank correlation of sensitivity with 1 - specificity, p over all orders up to nine studies, else t",
  caution:
    "historical: chance errors within studies and in S are ignored, so limits and p-values are not to be trusted, and adding 0.5 pulls the curve down. The curve is drawn over the rates seen only. A strong rank correlation may come from other things than cutoffs. Report pooling.bivariate",
  sources: ["moses1993", "littenberg1993", "spearman1904"],
  input: Input,
  options: Options,
  values: Values,
  run: curveByRegression,
  examples: curveRegressionExamples,
});
