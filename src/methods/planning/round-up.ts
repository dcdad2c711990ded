/**
 * The next whole number, so that never too few people are planned for. A value that lies within the rounding
 * of its own last places above a whole number counts as that number: 100 times 0.07 is 7, not 8.
 *
 * @param value finite, 0 or more
 */
export function roundUp(value: number): number {
  const nearest = Math.round(value);
  return Math.abs(value - nearest) <= GUARD * nearest ? nearest : Math.ceil(value);
}

const GUARD = 1e-12;
