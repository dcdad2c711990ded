import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { areaValues, emptyNotes, NO_AREA } from "./area-values.ts";
import { binormalValues } from "./binormal.ts";
import { exponentialErrors } from "./exponential-errors.ts";
import { ordinalExamples } from "./ordinal-examples.ts";
import {
  type OrdinalInput as Asked,
  type OrdinalOptions as Chosen,
  OrdinalInput,
  OrdinalOptions,
  OrdinalValues,
  type OrdinalValues as Values,
} from "./ordinal-fields.ts";
import type { Rungs } from "./placements.ts";

/**
 * How well do ordered categories (strength of a line, say) tell people with the condition from people without?
 *
 * @param input   people by category and truth, from the category that speaks least for the condition upwards
 * @param options level, and whether Wald limits are cut
 * @returns the area of the points joined by straight lines, and the curve of two normal distributions behind the
 *   categories; that curve is `null` with a note where fewer than three categories are in use (`too_few_categories`)
 *   or its likelihood has no top (`no_top`)
 * Behaves badly with few people, and where a category separates completely. A person counts once: several readers
 * of one person are not several people.
 * Sources: hanley1982, delong1988, dorfman1969
 */
export function ordinalCurve(input: Asked, options: Chosen): Finding<Values> {
  const rungs = rungsOfCategories(input);
  const { totalPositives, totalNegatives } = rungs;
  const people = { positives: totalPositives, negatives: totalNegatives };
  const points = pointsOf(input, rungs, options.level);
  if (totalPositives === 0 || totalNegatives === 0) {
    const exponential = {
      bothPositives: null,
      bothNegatives: null,
      standardErrorExact: null,
      standardErrorExponential: null,
    };
    const values = { ...people, area: NO_AREA, exponential, points, binormal: null };
    return { values, notes: emptyNotes(rungs, ["area", "exponential", "points", "binormal"]) };
  }
  const { area, notes } = areaValues(rungs, options.level, options.truncate);
  const binormal = binormalValues(input.categories, options.level);
  return {
    values: { ...people, area, exponential: exponentialErrors(rungs), points, binormal },
    notes: [...notes, ...(binormal === null ? [absent(input)] : binormalNotes(binormal, points))],
  };
}

function rungsOfCategories({ categories }: Asked): Rungs {
  const [first, last] = [categories.toReversed(), categories];
  const sum = (group: "positives" | "negatives") =>
    last.reduce((total, category) => total + category[group], 0);
  return {
    positives: Float64Array.from(first, ({ positives }) => positives),
    negatives: Float64Array.from(first, ({ negatives }) => negatives),
    totalPositives: sum("positives"),
    totalNegatives: sum("negatives"),
  };
}

function pointsOf({ categories }: Asked, rungs: Rungs, level: number): Values["points"] {
  return categories.slice(1).map(({ label }, place) => {
    const beyond = categories.slice(place + 1);
    const truePositives = beyond.reduce((sum, { positives }) => sum + positives, 0);
    const falsePositives = beyond.reduce((sum, { negatives }) => sum + negatives, 0);
    return {
      from: label,
      sensitivity: estimateProportion(truePositives, rungs.totalPositives, { level }),
      specificity: estimateProportion(rungs.totalNegatives - falsePositives, rungs.totalNegatives, { level }),
    };
  });
}

function absent({ categories }: Asked): Note {
  const used = categories.filter(({ positives, negatives }) => positives + negatives > 0).length;
  if (used < 3) {
    const message = `only ${used} categories have people in them: two normal distributions take three or more`;
    return note("too_few_categories", "binormal", message);
  }
  const message =
    "the likelihood has no top inside: the categories separate too completely, or people stand in too few of them";
  return note("no_top", "binormal", message);
}

/** Below this many people in some category, the chi-square distribution is no longer near. */
const FEW = 5;

function binormalNotes({ a, b, fit }: NonNullable<Values["binormal"]>, points: Values["points"]): Note[] {
  const notes: Note[] = [];
  if (fit.p === null) {
    const message = "three categories fit always: two normal distributions can't be doubted by them";
    notes.push(note("no_freedom", "binormal.fit.p", message));
  } else if (points.some(({ sensitivity, specificity }) => few(sensitivity) || few(specificity))) {
    const message = `fewer than ${FEW} people on one side of some cutoff: this p-value is rough`;
    notes.push(note("few_people", "binormal.fit.p", message));
  }
  const crossing = crossingOf(a.estimate.value as number, b.estimate.value as number);
  if (crossing !== null) {
    const message = `the fitted curve crosses the line of a test that says nothing at a specificity of ${(1 - crossing).toFixed(3)}: do not read it there`;
    notes.push(note("crosses_chance", "binormal.curve", message));
  }
  return notes;
}

function few({ count, total }: { readonly count: number; readonly total: number }): boolean {
  return Math.min(count, total - count) < FEW;
}

/** The false positive share, from 0.001 to 0.999, at which a curve with unequal spreads meets chance. */
function crossingOf(a: number, b: number): number | null {
  if (b === 1) return null;
  const share = normalCdf(a / (1 - b));
  return share > 0.001 && share < 0.999 ? share : null;
}

export const rocOrdinal = defineMethod({
  id: "roc.ordinal",
  version: 1,
  title: "Curve of ordered categories",
  question: "How well do ordered categories tell people with the condition from people without?",
  formula:
    "area = P(beyond) + P(same category) / 2. Standard errors: placements; sqrt((A (1 - A) + (m - 1)(Q1 - A²) + (n - 1)(Q2 - A²)) / (m n)) with Q1, Q2 from the counts or A / (2 - A), 2 A² / (1 + A). Two normal distributions: P(at or below border t) = Phi(t) without the condition, Phi(b t - a) with it, by maximum likelihood; sensitivity = Phi(a + b Phi^-1(1 - specificity)); area = Phi(a / sqrt(1 + b²))",
  caution:
    "with few categories the straight lines lie below a smooth curve, and the area with them. The smooth curve rests on a model that few categories can't put to the test. Where b is not 1 it crosses chance somewhere, mostly out of sight",
  sources: ["hanley1982", "delong1988", "dorfman1969", "newcombe2006auc"],
  input: OrdinalInput,
  options: OrdinalOptions,
  values: OrdinalValues,
  run: ordinalCurve,
  examples: ordinalExamples,
});
