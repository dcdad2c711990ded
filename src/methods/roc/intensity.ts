import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { cumulated } from "./curve-points.ts";
import { type Bar, histogramOf } from "./histogram.ts";
import { intensityExamples } from "./intensity-examples.ts";
import {
  type IntensityInput as Asked,
  type IntensityOptions as Chosen,
  IntensityInput,
  IntensityOptions,
  IntensityValues,
  type IntensityValues as Values,
} from "./intensity-fields.ts";
import { ladderOf } from "./ladder.ts";
import { quantileOf } from "./quantiles.ts";

const TRUTHS = ["positive", "negative"] as const;
const LISTS = { positive: "positives", negative: "negatives" } as const;

/**
 * How do readings lie in people with the condition and without, and as minutes go by?
 *
 * @param input   one reading a device by truth; minutes at which they were read, with edges of bands
 * @param options bars of the histogram
 * @returns `null` with a note for a group or band without readings
 * @throws InputError where minutes and readings differ in number, or edges don't rise
 * Behaves badly where minutes were the operator's choice: what lies late may be what was doubtful
 * Sources: hyndman1996, freedman1981; smirnov1948 for the largest distance
 */
export function intensities(input: Asked, options: Chosen): Finding<Values> {
  requireMinutes(input);
  const sorted = {
    positive: Float64Array.from(input.positives).sort(),
    negative: Float64Array.from(input.negatives).sort(),
  };
  const groups = TRUTHS.map((truth) => ({ truth, ...summaryOf(sorted[truth]) }));
  const histogram = histogramOf(sorted.positive, sorted.negative, options.bins);
  const both = sorted.positive.length > 0 && sorted.negative.length > 0;
  const bands = bandsOf(input);
  const everybody = input.positives.length + input.negatives.length;
  const inside = bands.reduce((sum, { readings }) => sum + readings, 0);
  const values: Values = {
    groups,
    histogram,
    overlap: both ? overlapOf(histogram, sorted.positive.length, sorted.negative.length) : null,
    largestGap: both ? largestGapOf(input) : null,
    bands,
    outsideBands: input.minutes === null || everybody === 0 ? 0 : (everybody - inside) / everybody,
  };
  return { values, notes: notesOn(values) };
}

function requireMinutes({ positives, negatives, minutes }: Asked): void {
  if (minutes === null) return;
  for (const [list, readings] of [["positives", positives] as const, ["negatives", negatives] as const]) {
    if (minutes[list].length === readings.length) continue;
    const expected = `${readings.length} minutes, one per reading`;
    throw new InputError(["input", "minutes", list], expected, minutes[list].length);
  }
  minutes.edges.forEach((edge, place) => {
    const before = minutes.edges[place - 1];
    if (before !== undefined && !(edge > before)) {
      throw new InputError(["input", "minutes", "edges", place], `more than ${before}`, edge);
    }
  });
}

function summaryOf(sorted: Float64Array) {
  if (sorted.length === 0) return { readings: 0, ...NO_SUMMARY };
  const mean = sorted.reduce((sum, reading) => sum + reading / sorted.length, 0);
  const squares = sorted.reduce((sum, reading) => sum + Math.pow(reading - mean, 2), 0);
  return {
    readings: sorted.length,
    lowest: sorted[0] as number,
    p05: quantileOf(sorted, 0.05),
    p25: quantileOf(sorted, 0.25),
    median: quantileOf(sorted, 0.5),
    p75: quantileOf(sorted, 0.75),
    p95: quantileOf(sorted, 0.95),
    highest: sorted.at(-1) as number,
    mean,
    standardDeviation: sorted.length > 1 ? Math.sqrt(squares / (sorted.length - 1)) : null,
  };
}

const NO_SUMMARY = {
  lowest: null,
  p05: null,
  p25: null,
  median: null,
  p75: null,
  p95: null,
  highest: null,
  mean: null,
  standardDeviation: null,
};

function overlapOf(histogram: readonly Bar[], positives: number, negatives: number): number {
  const common = histogram.reduce(
    (sum, bar) => sum + Math.min(bar.positives * negatives, bar.negatives * positives),
    0,
  );
  return common / (positives * negatives);
}

function largestGapOf({ positives, negatives }: Asked): number {
  const ladder = ladderOf(positives, negatives, "higher");
  const [mine, others] = [cumulated(ladder.positives), cumulated(ladder.negatives)];
  let gap = 0;
  for (let rung = 0; rung < mine.length; rung += 1) {
    const here = (mine[rung] as number) * negatives.length - (others[rung] as number) * positives.length;
    gap = Math.max(gap, Math.abs(here));
  }
  return gap / (positives.length * negatives.length);
}

function bandsOf({ positives, negatives, minutes }: Asked): Values["bands"] {
  if (minutes === null) return [];
  const readings = { positives, negatives };
  return TRUTHS.flatMap((truth) =>
    minutes.edges.slice(1).map((to, place) => {
      const from = minutes.edges[place] as number;
      const last = place === minutes.edges.length - 2;
      const list = LISTS[truth];
      const within = readings[list].filter((_, at) => {
        const minute = minutes[list][at] as number;
        return minute >= from && (minute < to || (last && minute === to));
      });
      const sorted = Float64Array.from(within).sort();
      const quartile = (share: number) => (sorted.length > 0 ? quantileOf(sorted, share) : null);
      const quartiles = { p25: quartile(0.25), median: quartile(0.5), p75: quartile(0.75) };
      return { truth, from, to, readings: sorted.length, ...quartiles };
    }),
  );
}

function notesOn({ groups, bands, overlap, outsideBands }: Values): Note[] {
  const notes: Note[] = [];
  groups.forEach(({ readings }, place) => {
    const message = readings === 0 ? "nobody was measured" : "one reading has no spread";
    if (readings === 0) notes.push(note("no_observations", `groups.${place}`, message));
    if (readings === 1) notes.push(note("one_reading", `groups.${place}.standardDeviation`, message));
  });
  if (overlap === null) {
    notes.push(...notesAt("no_observations", ["overlap", "largestGap"], "one of the groups is empty"));
  }
  bands.forEach(({ readings }, place) => {
    if (readings === 0)
      notes.push(note("no_observations", `bands.${place}`, "nothing was read in this band"));
  });
  if (outsideBands > 0) {
    notes.push(
      note("outside_bands", "outsideBands", "some readings were taken at minutes outside all bands"),
    );
  }
  return notes;
}

export const rocIntensity = defineMethod({
  id: "roc.intensity",
  version: 1,
  title: "Readings by truth and by minute",
  question: "How do readings lie in people with the condition and without, and as minutes go by?",
  formula:
    "quantile of share q: straight line between the sorted readings at place 1 + (n - 1) q; bar width 2 IQR / n^(1/3); overlap = sum over bars of the smaller share; largest gap = max |F positive - F negative|",
  caution:
    "the overlap hangs on the width of the bars. Minutes are chosen by operators: what was read late may be what was doubtful, so bands of minutes are not an experiment",
  sources: ["hyndman1996", "freedman1981", "smirnov1948"],
  input: IntensityInput,
  options: IntensityOptions,
  values: IntensityValues,
  run: intensities,
  examples: intensityExamples,
});
