import { randomBinomial } from "d3-random";
import type { RandomSource } from "../../core/random.ts";

/**
 * How many of each kind, when as many items are drawn again with replacement as there are. Kind after kind
 * from a binomial distribution given those before it, the commonest first: time grows with the number of
 * kinds and not of items.
 *
 * @param sizes items of each kind
 * @param order the kinds, the commonest first
 * @param drawn takes the answer: one count per kind
 */
export function drawAgain(
  sizes: readonly number[],
  order: readonly number[],
  random: RandomSource,
  drawn: Uint32Array,
): void {
  const binomial = randomBinomial.source(random);
  let left = sizes.reduce((sum, size) => sum + size, 0);
  let rest = left;
  drawn.fill(0);
  for (const kind of order) {
    if (left === 0) return;
    const size = sizes[kind] as number;
    const taken = size >= rest ? left : binomial(left, size / rest)();
    drawn[kind] = taken;
    left -= taken;
    rest -= size;
  }
}
