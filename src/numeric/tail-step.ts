/**
 * Solving tail(t) = target for a distribution whose density D and both tails are log-concave in t (the log
 * odds of a beta variable, the log of a gamma variable). There Newton's step on the log of the tail
 * converges from any start. Far from the solution the parabola through value, slope and curvature is solved
 * (exact for a normal tail); near it the inverse Taylor series is taken to its fourth term, at no cost, since
 * one evaluation of T and D gives all derivatives.
 *
 * @param gap log(target / T)
 * @param rate T' / T, signed: D / T for a lower tail, -D / T for an upper one
 * @param slope D' / D
 * @param bend the derivative of `slope`
 * @param twist the derivative of `bend`
 * @returns how far to move t
 */
export function tailStep(gap: number, rate: number, slope: number, bend: number, twist: number): number {
  const newton = gap / rate;
  const m = slope - rate;
  const second = m / 2;
  const curve = m * newton;
  if (!(Math.abs(curve) < 0.4 && Math.abs(bend) * newton * newton < 0.2)) {
    return curve > -0.5 ? (2 * newton) / (1 + Math.sqrt(1 + 2 * curve)) : newton;
  }
  const third = (m * (m - rate) + bend) / 6;
  const fourth = (m * (m * (m - 4 * rate) + 3 * bend + rate * rate) + twist - rate * bend) / 24;
  const cubic = 2 * second * second - third;
  const quartic = 5 * second * (third - second * second) - fourth;
  return newton * (1 + newton * (-second + newton * (cubic + newton * quartic)));
}

/**
 * Whether the error left after a `tailStep` of this size, of the order of its fifth power, is negligible.
 * A step above 1/2 never settles it, as the derivatives may be others at its end.
 */
export function isSettled(move: number, rate: number, slope: number, bend: number): boolean {
  const m = slope - rate;
  const scaled = move * move * (m * m + Math.abs(bend));
  return Math.abs(move) < 0.5 && Math.abs(move) * scaled * scaled <= 1e-15;
}
