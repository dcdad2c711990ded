import { sortedQuantile } from "./sorted-quantile.ts";

const BINS = 1024;
/** Beyond this many widths a kernel is nothing. */
const FAR = 6;

/**
 * A smooth estimate of the density of draws: a normal kernel of Silverman's width over 1,024 bins, each draw
 * shared between the two nearest.
 *
 * @param sorted draws in rising order, 2 or more; draws outside their central 99.98 % weigh, but are held there
 * @returns the density at a place; 0 everywhere where nothing varies
 * Source: Silverman 1986, Density Estimation, formula 3.31 (memory)
 */
export function kernelDensity(sorted: Float64Array): (at: number) => number {
  const low = sortedQuantile(sorted, 0.0001);
  const high = sortedQuantile(sorted, 0.9999);
  if (!(high > low)) return () => 0;
  const weights = new Float64Array(BINS + 1);
  const step = (high - low) / BINS;
  let sum = 0;
  for (const draw of sorted) sum += draw;
  const mean = sum / sorted.length;
  let squares = 0;
  for (const draw of sorted) {
    squares += (draw - mean) ** 2;
    const place = Math.min(BINS, Math.max(0, (draw - low) / step));
    const bin = Math.min(BINS - 1, Math.floor(place));
    weights[bin] = (weights[bin] as number) + 1 - (place - bin);
    weights[bin + 1] = (weights[bin + 1] as number) + place - bin;
  }
  const deviation = Math.sqrt(squares / (sorted.length - 1));
  const quartiles = (sortedQuantile(sorted, 0.75) - sortedQuantile(sorted, 0.25)) / 1.34;
  const spread = quartiles > 0 ? Math.min(deviation, quartiles) : deviation;
  const width = Math.max(0.9 * spread * sorted.length ** -0.2, step);
  const scale = 1 / (sorted.length * width * Math.sqrt(2 * Math.PI));
  return (at) => {
    let density = 0;
    const first = Math.max(0, Math.floor((at - FAR * width - low) / step));
    const last = Math.min(BINS, Math.ceil((at + FAR * width - low) / step));
    for (let bin = first; bin <= last; bin += 1) {
      const away = (at - low - bin * step) / width;
      density += (weights[bin] as number) * Math.exp(-0.5 * away * away);
    }
    return density * scale;
  };
}
