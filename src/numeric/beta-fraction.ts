const BIG = 2 ** 250;
const SMALL = 2 ** -250;
const MOST_STEPS = 3_000_000;

/**
 * The lower tail of a beta distribution divided by x^a y^b / B(a, b), for x up to about a / (a + b):
 * a continued fraction whose terms are positive there (while step < b), evaluated forwards without a
 * division in the chain, two steps at a time. Source: Didonato & Morris 1992 (ACM TOMS 18, 360-373),
 * equation 9.
 *
 * The change from one step to the next is followed by its own product (the determinant formula), not by
 * subtracting, so that it can be asked to fall below the rounding of the result.
 *
 * @param lack a - (a + b) x, not much below 0
 * @param tolerance relative change of a step at which to stop
 */
export function betaFraction(
  a: number,
  b: number,
  x: number,
  y: number,
  lack: number,
  tolerance: number,
): number {
  const total = a + b;
  const base = lack + 1;
  const growth = 1 + y;
  let share = x / (a + 1);
  let topBefore = 0;
  let bottomBefore = 1;
  let top = 1;
  let bottom = (a * base) / (a + 1);
  let change = 1;
  for (let step = 1; step < MOST_STEPS; step += 2) {
    const odd = step * (b - step) * share;
    const alpha = (a + step - 1) * (total + step - 1) * share * odd;
    const inverse = 1 / (a + 2 * step + 1);
    const beta = step + odd + (a + step) * inverse * (base + step * growth);
    topBefore = beta * top + alpha * topBefore;
    bottomBefore = beta * bottom + alpha * bottomBefore;

    const next = step + 1;
    const even = next * (b - next) * x * inverse;
    const nextAlpha = (a + step) * (total + step) * x * inverse * even;
    const nextInverse = 1 / (a + 2 * step + 3);
    const nextBeta = next + even + (a + next) * nextInverse * (base + next * growth);
    top = nextBeta * topBefore + nextAlpha * top;
    bottom = nextBeta * bottomBefore + nextAlpha * bottom;
    share = x * nextInverse;

    change *= alpha * nextAlpha;
    if (Math.abs(change) <= tolerance * top * bottomBefore) break;
    if (bottom > BIG) {
      top *= SMALL;
      bottom *= SMALL;
      topBefore *= SMALL;
      bottomBefore *= SMALL;
      change *= SMALL * SMALL;
    }
  }
  return top / bottom;
}
