/**
 * How far to move to bring a tail probability T to its target: four terms of the inverse Taylor series
 * of log T. It uses only what is at hand after one evaluation of T and its density D.
 *
 * Both tails of the log odds of a beta variable and of the log of a gamma variable are log-concave, so
 * the first term alone (Newton) converges from anywhere; the others are used once they are small.
 *
 * @param gap log(target / T)
 * @param rate T' / T, signed: D / T for a lower tail, -D / T for an upper one
 * @param slope D' / D
 * @param bend the derivative of `slope`
 */
export function tailStep(gap: number, rate: number, slope: number, bend: number): number {
  const newton = gap / rate;
  const second = (slope - rate) / 2;
  const curve = second * newton;
  if (Math.abs(curve) > 0.3) return newton / (1 + Math.max(curve, 0));
  const third = ((slope - rate) * (slope - 2 * rate) + bend) / 6;
  return newton * (1 - curve + (2 * second * second - third) * newton * newton);
}
