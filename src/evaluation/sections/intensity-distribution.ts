import { type Note, note } from "../../core/note.ts";
import { rocIntensity } from "../../methods/roc/intensity.ts";
import type { Intensity } from "../document.ts";
import type { InstrumentCell } from "../instrument-cells.ts";
import type { MeasuredPerson } from "../measured-people.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

type Distribution = Intensity["distribution"];
interface Readings {
  readonly positives: number[];
  readonly negatives: number[];
}

/** How readings lie by status, and as minutes go by. */
export function distributionOf(
  worktop: Worktop,
  cell: InstrumentCell,
  readings: Readings,
): { readonly values: Distribution; readonly notes: readonly Note[] } {
  const { values, notes } = worktop.compute(rocIntensity, { ...readings, minutes: null });
  const scaled = histogramOf(worktop, cell, readings, values);
  return {
    values: {
      groups: values.groups,
      histogramScale: scaled.scale,
      histogram: scaled.histogram,
      overlap: scaled.overlap,
      largestGap: values.largestGap,
      minutes: minutesOf(worktop, cell),
    },
    notes: [...notesAtPlace(notes, "distribution"), ...scaled.notes],
  };
}

interface Scaled extends Pick<Distribution, "histogram" | "overlap"> {
  readonly scale: Distribution["histogramScale"];
  readonly notes: readonly Note[];
}

/** Bars of equal width on the scale that the study file names. */
function histogramOf(
  worktop: Worktop,
  { instrument }: InstrumentCell,
  { positives, negatives }: Readings,
  { histogram, overlap }: Pick<Distribution, "histogram" | "overlap">,
): Scaled {
  const linear: Scaled = { scale: "linear", histogram, overlap, notes: [] };
  if (instrument.scale === "linear") return linear;
  if ([...positives, ...negatives].some((reading) => reading <= 0)) {
    const message = "a reading of 0 or less has no logarithm: the bars are of equal width as they stand";
    return { ...linear, notes: [note("no_logarithm", "distribution.histogramScale", message)] };
  }
  const logarithms = {
    positives: positives.map(Math.log10),
    negatives: negatives.map(Math.log10),
  };
  const { values } = worktop.compute(rocIntensity, { ...logarithms, minutes: null });
  const bars = values.histogram.map((bar) => ({
    ...bar,
    from: Math.pow(10, bar.from),
    to: Math.pow(10, bar.to),
  }));
  return { scale: "log10", histogram: bars, overlap: values.overlap, notes: [] };
}

function minutesOf(worktop: Worktop, { people, kit }: InstrumentCell): Distribution["minutes"] {
  const timed = (list: readonly MeasuredPerson[]) => list.filter(({ pair }) => pair.minutes !== null);
  const [positives, negatives] = [timed(people.positives), timed(people.negatives)];
  const known = positives.length + negatives.length;
  if (known === 0) return null;
  const window = kit.reading_window;
  const from = window?.from_minutes ?? 0;
  const to = window?.to_minutes ?? from;
  // The window holds its end, and a band its beginning: what was read just then is put before it.
  const minute = ({ pair }: MeasuredPerson) => {
    const at = pair.minutes as number;
    return at === to && to > from ? to - JUST_BEFORE : at;
  };
  const minutes = { positives: positives.map(minute), negatives: negatives.map(minute) };
  const edges = edgesAround(from, to, [...minutes.positives, ...minutes.negatives]);
  const { values } = worktop.compute(rocIntensity, {
    positives: positives.map(({ reading }) => reading),
    negatives: negatives.map(({ reading }) => reading),
    minutes: { ...minutes, edges },
  });
  const unknown = people.positives.length + people.negatives.length - known;
  return { edges, known, unknown, bands: values.bands, outsideBands: values.outsideBands };
}

const JUST_BEFORE = 1e-9;
const STEP = 5;
/** Steps on either side of the window; what lies farther is one band. */
const STEPS = 3;

/** Edges every five minutes, counted from the window's own ends, over all minutes seen. */
function edgesAround(from: number, to: number, minutes: readonly number[]): number[] {
  let [first, last] = [from, to];
  for (const minute of minutes) {
    first = Math.min(first, minute);
    last = Math.max(last, minute);
  }
  const edges = new Set([from, to]);
  for (let at = from + STEP; at < to && edges.size < MOST_INSIDE; at += STEP) edges.add(at);
  for (let step = 1; step <= STEPS && from - STEP * (step - 1) > first; step += 1) {
    edges.add(Math.max(0, from - STEP * step));
  }
  for (let step = 1; step <= STEPS && to + STEP * (step - 1) < last; step += 1) edges.add(to + STEP * step);
  edges.add(Math.min(first, ...edges));
  edges.add(Math.max(last, ...edges));
  if (edges.size === 1) edges.add(to + STEP);
  return [...edges].sort((one, other) => one - other);
}

const MOST_INSIDE = 40;
