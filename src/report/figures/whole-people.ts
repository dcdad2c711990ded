/**
 * Expected numbers as whole people that add up to `total` (largest remainders; ties go to the
 * earlier entry). Expected numbers need not be on that scale: only their shares count.
 *
 * @returns one whole number per entry, same order; all 0 where the expected numbers are
 */
export function wholePeople(expected: readonly number[], total: number): number[] {
  const sum = expected.reduce((all, value) => all + value, 0);
  if (sum <= 0) return expected.map(() => 0);
  const exact = expected.map((value) => (value * total) / sum);
  const whole = exact.map(Math.floor);
  const rest = total - whole.reduce((all, value) => all + value, 0);
  const order = exact
    .map((value, index) => ({ index, remainder: value - Math.floor(value) }))
    .sort((one, other) => other.remainder - one.remainder || one.index - other.index);
  for (const { index } of order.slice(0, rest)) whole[index] = (whole[index] ?? 0) + 1;
  return whole;
}
