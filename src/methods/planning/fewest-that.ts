/**
 * The smallest whole number of 0..`most` for which a condition holds that, once true, stays true; `null` where
 * it holds for none of them. Looks around the guess first, in strides that double, then halves.
 *
 * @param holds called about twice the logarithm of the distance between guess and answer
 * @param guess any number; the nearer to the answer the quicker
 */
export function fewestThat(holds: (total: number) => boolean, guess: number, most: number): number | null {
  let high = Math.min(most, Math.max(0, Math.ceil(guess)));
  let low = high;
  let stride = Math.max(1, Math.floor(high / 50));
  if (holds(high)) {
    do {
      high = low;
      low -= stride;
      stride *= 2;
    } while (low >= 0 && holds(low));
    low = Math.max(low, -1);
  } else {
    do {
      if (high === most) return null;
      low = high;
      high = Math.min(most, high + stride);
      stride *= 2;
    } while (!holds(high));
  }
  while (high - low > 1) {
    const middle = low + Math.floor((high - low) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
