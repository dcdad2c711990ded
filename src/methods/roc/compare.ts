import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { logitArea } from "./area-limits.ts";
import { comparedRanges } from "./compare-drawn.ts";
import { compareExamples } from "./compare-examples.ts";
import {
  type CompareInput as Asked,
  type CompareOptions as Chosen,
  CompareInput,
  CompareOptions,
  CompareValues,
  type CompareValues as Values,
} from "./compare-fields.ts";
import { type Ladder, ladderOf, rungsOf } from "./ladder.ts";
import { requireRanges } from "./partial-area.ts";
import { pairsBeyond, placementsOf, placementVariance } from "./placements.ts";

/**
 * Do two readings, or the same reading in two groups, tell people apart equally well?
 *
 * @param input   paired: both readings of the same people, in the same order; independent: different people
 * @param options level, parts of the curve, replicates and seed for these parts
 * @returns differences first less second; `null` with a note where a group is empty or has one person, or where
 *   the difference does not vary
 * @throws InputError where paired lists differ in length, or a range has no width
 * Behaves badly with fewer than about 10 people in a group, and where areas are near 1
 * Sources: delong1988; hanley1983curves for why pairs matter; efron1993 for the parts
 */
export function compareCurves(input: Asked, options: Chosen): Finding<Values> {
  requireRanges(options.ranges);
  requirePairs(input);
  const ladders = [ladderFor(input.first), ladderFor(input.second)] as const;
  if (ladders.some(({ totalPositives, totalNegatives }) => totalPositives < 2 || totalNegatives < 2)) {
    return nothing(ladders, options);
  }
  const [first, second] = [sideOf(ladders[0], options.level), sideOf(ladders[1], options.level)];
  const [errorOne, errorTwo] = [first.standardError as number, second.standardError as number];
  const covariance = input.design === "paired" ? covarianceOf(ladders, input) : 0;
  const value = (first.area.value as number) - (second.area.value as number);
  const variance = Math.pow(errorOne, 2) + Math.pow(errorTwo, 2) - 2 * covariance;
  const standardError =
    variance > ROUNDING * (Math.pow(errorOne, 2) + Math.pow(errorTwo, 2)) ? Math.sqrt(variance) : 0;
  const reach = normalQuantile((1 + options.level) / 2) * standardError;
  const z = standardError > 0 ? value / standardError : null;
  const values: Values = {
    first,
    second,
    covariance,
    correlation: errorOne > 0 && errorTwo > 0 ? covariance / (errorOne * errorTwo) : null,
    difference: { value, lower: Math.max(-1, value - reach), upper: Math.min(1, value + reach) },
    standardError,
    z,
    p: z === null ? null : Math.min(1, 2 * normalCdf(Math.abs(z), "upper")),
    ranges: comparedRanges(ladders, input, options),
  };
  return { values, notes: notesOn(values) };
}

/** A variance that is this share of the variances it is the difference of is rounding. */
const ROUNDING = 1e-14;

function requirePairs({ design, first, second }: Asked): void {
  if (design === "independent") return;
  for (const group of ["positives", "negatives"] as const) {
    if (first[group].length === second[group].length) continue;
    const expected = `${first[group].length} readings, of the same people as in first`;
    throw new InputError(["input", "second", group], expected, second[group].length);
  }
}

function ladderFor({ positives, negatives, direction }: Asked["first"]): Ladder {
  return ladderOf(positives, negatives, direction);
}

function sideOf(ladder: Ladder, level: number): Values["first"] {
  const { totalPositives, totalNegatives } = ladder;
  const area = pairsBeyond(ladder) / (totalPositives * totalNegatives);
  const standardError = Math.sqrt(placementVariance(ladder, area) ?? 0);
  return {
    positives: totalPositives,
    negatives: totalNegatives,
    area: logitArea(area, standardError, level),
    standardError,
  };
}

/** How the two areas go together: covariances of the placements of the same people, over their number, added. */
function covarianceOf(ladders: readonly [Ladder, Ladder], { first, second }: Asked): number {
  const [one, other] = [placementsOf(ladders[0]), placementsOf(ladders[1])];
  const part = (group: "positives" | "negatives", which: "ofPositives" | "ofNegatives") => {
    const [here, there] = [rungsOf(ladders[0], first[group]), rungsOf(ladders[1], second[group])];
    const people = here.length;
    const at = (placements: Float64Array, rungs: Uint32Array, person: number) =>
      placements[rungs[person] as number] as number;
    let [sumOne, sumOther] = [0, 0];
    for (let person = 0; person < people; person += 1) {
      sumOne += at(one[which], here, person);
      sumOther += at(other[which], there, person);
    }
    let products = 0;
    for (let person = 0; person < people; person += 1) {
      products +=
        (at(one[which], here, person) - sumOne / people) *
        (at(other[which], there, person) - sumOther / people);
    }
    return products / (people - 1) / people;
  };
  return part("positives", "ofPositives") + part("negatives", "ofNegatives");
}

function notesOn({ first, second, z, correlation, ranges }: Values): Note[] {
  const notes: Note[] = [];
  for (const [path, { area }] of [["first.area", first] as const, ["second.area", second] as const]) {
    const message = "no reading of one group lies among the other's: the logit of the area is infinite";
    if (area.lower === null) notes.push(note("not_estimable", path, message));
  }
  if (z === null) {
    const message = "the difference does not vary: no width, which does not mean certainty";
    notes.push(...notesAt("no_variation", ["z", "p", "difference"], message));
  }
  if (correlation === null) {
    notes.push(note("no_variation", "correlation", "the placements of one curve don't vary"));
  }
  ranges.forEach(({ z: there }, place) => {
    const message = "every replicate is the same";
    if (there === null)
      notes.push(...notesAt("no_variation", [`ranges.${place}.z`, `ranges.${place}.p`], message));
  });
  return notes;
}

function nothing(ladders: readonly [Ladder, Ladder], { ranges }: Chosen): Finding<Values> {
  const none = { value: null, lower: null, upper: null };
  const side = ({ totalPositives, totalNegatives }: Ladder) => ({
    positives: totalPositives,
    negatives: totalNegatives,
    area: none,
    standardError: null,
  });
  const parts = { first: null, second: null, difference: none, standardError: null, z: null, p: null };
  const values: Values = {
    first: side(ladders[0]),
    second: side(ladders[1]),
    covariance: null,
    correlation: null,
    difference: none,
    standardError: null,
    z: null,
    p: null,
    ranges: ranges.map((range) => ({ range, ...parts })),
  };
  const paths = Object.keys(values);
  const message =
    "comparing curves takes two people or more with the condition, and two without, on each side";
  return { values, notes: notesAt("no_observations", paths, message) };
}

export const rocCompare = defineMethod({
  id: "roc.compare",
  version: 1,
  title: "Two curves compared",
  question: "Do two readings tell people with the condition from people without equally well?",
  formula:
    "difference = area 1 - area 2; variance = variance 1 + variance 2 - 2 covariance, the covariance being that of the two placements of the same person, among positives over positives plus among negatives over negatives (0 where people differ); z = difference / standard error. Partial areas: percentiles of the difference in people drawn anew, with both their readings where paired",
  caution:
    "equal areas do not make equal curves: they may cross. Ignoring that both readings come from the same people gives too wide an interval. A difference that is not shown is not equality: state a margin beforehand",
  sources: ["delong1988", "hanley1983curves", "efron1993"],
  input: CompareInput,
  options: CompareOptions,
  values: CompareValues,
  run: compareCurves,
  examples: compareExamples,
});
