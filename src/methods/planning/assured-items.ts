/** How much larger each next trial is, while none is large enough. */
const STEP = 1.25;

/**
 * The fewest items, from `start` up, with which the wanted share of simulated studies is precise enough.
 *
 * Goes up by quarters until enough are, then halves. The share is itself simulated, so that the answer is
 * only as sharp as the number of studies allows: a few items more or less mean nothing.
 *
 * @param precise share of simulated studies of so many items that are precise enough
 * @returns `null` where more than `most` items would be needed
 */
export function assuredItems(
  precise: (items: number) => number,
  wanted: number,
  start: number,
  most: number,
): { total: number; probability: number } | null {
  let low = start - 1;
  let high = start;
  let probability = precise(high);
  while (probability < wanted) {
    if (high >= most) return null;
    low = high;
    high = Math.min(most, Math.ceil(high * STEP));
    probability = precise(high);
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const there = precise(middle);
    if (there >= wanted) {
      high = middle;
      probability = there;
    } else low = middle;
  }
  return { total: high, probability };
}
