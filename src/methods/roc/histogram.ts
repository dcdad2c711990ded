import { quantileOf } from "./quantiles.ts";

export interface Bar {
  readonly from: number;
  readonly to: number;
  readonly positives: number;
  readonly negatives: number;
}

const FEWEST_BARS = 5;
const MOST_BARS = 60;

/** Bars of equal width over all readings; none where there is no reading. Source: freedman1981 for the width */
export function histogramOf(positives: Float64Array, negatives: Float64Array, bars: number | null): Bar[] {
  const all = new Float64Array(positives.length + negatives.length);
  all.set(positives);
  all.set(negatives, positives.length);
  all.sort();
  if (all.length === 0) return [];
  const [lowest, highest] = [all[0] as number, all.at(-1) as number];
  if (lowest === highest) {
    return [
      { from: lowest - 0.5, to: highest + 0.5, positives: positives.length, negatives: negatives.length },
    ];
  }
  const number = bars ?? usualBars(all);
  const edge = (place: number) =>
    place === number ? highest : lowest * (1 - place / number) + highest * (place / number);
  const [mine, others] = [barCounts(positives, edge, number), barCounts(negatives, edge, number)];
  return Array.from({ length: number }, (_, place) => ({
    from: edge(place),
    to: edge(place + 1),
    positives: mine[place] as number,
    negatives: others[place] as number,
  }));
}

function usualBars(all: Float64Array): number {
  const width = (2 * (quantileOf(all, 0.75) - quantileOf(all, 0.25))) / Math.cbrt(all.length);
  if (!(width > 0)) return MOST_BARS;
  const range = (all.at(-1) as number) - (all[0] as number);
  return Math.min(MOST_BARS, Math.max(FEWEST_BARS, Math.ceil(range / width)));
}

/** `sorted` readings by bar: a bar holds its lower edge, the last one its upper edge too. */
function barCounts(sorted: Float64Array, edge: (place: number) => number, bars: number): Uint32Array {
  const counts = new Uint32Array(bars);
  let bar = 0;
  for (const reading of sorted) {
    while (bar < bars - 1 && reading >= edge(bar + 1)) bar += 1;
    counts[bar] = (counts[bar] as number) + 1;
  }
  return counts;
}
