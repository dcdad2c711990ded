import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { areaValues, emptyNotes, NO_AREA } from "./area-values.ts";
import { curveDrawn } from "./curve-drawn.ts";
import { curveExamples } from "./curve-examples.ts";
import {
  type CurveInput as Asked,
  type CurveOptions as Chosen,
  CurveInput,
  CurveOptions,
  CurveValues,
  type CurveValues as Values,
} from "./curve-fields.ts";
import { curvePoints } from "./curve-points.ts";
import { type Ladder, ladderOf } from "./ladder.ts";
import { partialArea, rangeBounds, requireRanges, standardised } from "./partial-area.ts";
import { pairsBeyond } from "./placements.ts";

/**
 * How well does a reading tell people with the condition from people without, whatever the cutoff?
 *
 * @param input   one reading a person in each group (ties allowed), and which readings speak for the condition
 * @param options level, parts of the curve, most points returned, replicates (0: none) and seed
 * @returns `null` with a note where a group is empty; the logit interval also where the area is 0 or 1
 * @throws InputError for a range without width, or more draws than a page can wait for
 * Behaves badly with fewer than about 10 people in a group. One reading a person: several readings of one
 * person are not several people.
 * Sources: delong1988, mann1947, newcombe2006auc, mcclish1989, campbell1994, massart1990
 */
export function receiverCurve(input: Asked, options: Chosen): Finding<Values> {
  requireRanges(options.ranges);
  const ladder = ladderOf(input.positives, input.negatives, input.direction);
  const { totalPositives, totalNegatives } = ladder;
  if (totalPositives === 0 || totalNegatives === 0) return nothing(ladder, options);
  const { area, notes } = areaValues(ladder, options.level, options.truncate);
  const { rankSum, notes: rankNotes } = rankSumOf(ladder);
  const halfWidth = (people: number) =>
    Math.min(1, Math.sqrt(Math.log(2 / (1 - Math.sqrt(options.level))) / (2 * people)));
  const values: Values = {
    positives: totalPositives,
    negatives: totalNegatives,
    cutoffs: ladder.keys.length,
    area,
    rankSum,
    points: curvePoints(ladder, options.points, options.level),
    band: { sensitivity: halfWidth(totalPositives), specificity: halfWidth(totalNegatives) },
    ranges: options.ranges.map((range) => {
      const part = partialArea(ladder, range);
      return { range, area: part, ...rangeBounds(range), standardised: standardised(part, range) };
    }),
    drawn: options.replicates === 0 ? null : curveDrawn(ladder, options),
  };
  return { values, notes: [...notes, ...rankNotes, ...curveNotes(values)] };
}

/** Mann and Whitney's test, without correction for continuity. */
function rankSumOf(ladder: Ladder): { readonly rankSum: Values["rankSum"]; readonly notes: Note[] } {
  const { totalPositives, totalNegatives } = ladder;
  const u = pairsBeyond(ladder);
  const [pairs, people] = [totalPositives * totalNegatives, totalPositives + totalNegatives];
  let tied = 0;
  for (let rung = 0; rung < ladder.keys.length; rung += 1) {
    const here = (ladder.positives[rung] as number) + (ladder.negatives[rung] as number);
    tied += Math.pow(here, 3) - here;
  }
  const variance = (pairs / 12) * (people + 1 - tied / (people * (people - 1)));
  if (ladder.keys.length === 1) {
    const message = "all readings are the same";
    return { rankSum: { u, z: null, p: null }, notes: notesAt("no_variation", ["rankSum"], message) };
  }
  const z = (u - pairs / 2) / Math.sqrt(variance);
  return { rankSum: { u, z, p: Math.min(1, 2 * normalCdf(Math.abs(z), "upper")) }, notes: [] };
}

function curveNotes({ points, cutoffs, drawn }: Values): Note[] {
  const notes: Note[] = [];
  if (points.length < cutoffs) {
    const message = `${points.length} of ${cutoffs} points are given, among them those on the convex hull; areas use all`;
    notes.push(note("thinned", "points", message));
  }
  const message =
    "each limit holds for a cutoff fixed beforehand; for the curve as a whole, or a cutoff chosen by it, see the band";
  notes.push(note("one_cutoff", "points", message));
  if (drawn !== null && drawn.area.lower === drawn.area.upper) {
    const words = "every replicate is the same: no width, which does not mean certainty";
    notes.push(note("no_width", "drawn.area", words));
  }
  return notes;
}

function nothing(ladder: Ladder, options: Chosen): Finding<Values> {
  const values: Values = {
    positives: ladder.totalPositives,
    negatives: ladder.totalNegatives,
    cutoffs: ladder.keys.length,
    area: NO_AREA,
    rankSum: { u: null, z: null, p: null },
    points: [],
    band: { sensitivity: null, specificity: null },
    ranges: options.ranges.map((range) => ({
      range,
      area: null,
      ...rangeBounds(range),
      standardised: null,
    })),
    drawn: null,
  };
  return { values, notes: emptyNotes(ladder, ["area", "rankSum", "points", "band", "ranges", "drawn"]) };
}

export const rocCurve = defineMethod({
  id: "roc.curve",
  version: 1,
  title: "Curve of all cutoffs, and its area",
  question:
    "How well does a reading tell people with the condition from people without, whatever the cutoff?",
  formula:
    "area = (pairs in which the person with the condition lies beyond + ties / 2) / (positives × negatives); variance = variance of placements among positives / positives + the same among negatives / negatives, a placement being the share of the other group that somebody lies on the right side of. Logit limits: logit(area) ± z se / (area (1 - area)). Score limits: |area - theta| = z sqrt(theta (1 - theta) (1 + ((m + n) / 2 - 1) ((1 - theta) / (2 - theta) + theta / (1 + theta))) / (m n)). Partial area: points joined by straight lines; standardised = (1 + (area - least) / (most - least)) / 2. Band: sqrt(ln(2 / (1 - sqrt(level))) / (2 people)) either way, in each group",
  caution:
    "the area averages over cutoffs that nobody would use: look at the part that matters. It says nothing about the cutoff in use, nor about people unlike these. Limits of single points do not hold for a cutoff chosen by looking",
  sources: [
    "delong1988",
    "mann1947",
    "sun2014",
    "newcombe2006auc",
    "mcclish1989",
    "campbell1994",
    "massart1990",
    "efron1993",
  ],
  input: CurveInput,
  options: CurveOptions,
  values: CurveValues,
  run: receiverCurve,
  examples: curveExamples,
});
