const BIG = 2 ** 300;
const SMALL = 2 ** -300;
const MOST_STEPS = 3_000_000;

/**
 * The lower tail of a beta distribution divided by x^a y^b / B(a, b), for x up to about a / (a + b):
 * a continued fraction whose terms are positive there (while step < b), evaluated forwards without a
 * division in the chain. Source: Didonato & Morris 1992 (ACM TOMS 18, 360-373), equation 9.
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
  let inverse = 1 / (a + 1);
  let topBefore = 0;
  let bottomBefore = 1;
  let top = 1;
  let bottom = a * (lack + 1) * inverse;
  let change = 1;
  for (let step = 1; step < MOST_STEPS; step++) {
    const after = a + step;
    const share = x * inverse;
    const weight = step * (b - step) * share;
    inverse = 1 / (after + step + 1);
    const alpha = (after - 1) * (total + step - 1) * share * weight;
    const beta = step + weight + after * inverse * (lack + 1 + step * (1 + y));
    const newTop = beta * top + alpha * topBefore;
    const newBottom = beta * bottom + alpha * bottomBefore;
    change *= Math.abs(alpha);
    const converged = change <= tolerance * newTop * bottom;
    topBefore = top;
    bottomBefore = bottom;
    top = newTop;
    bottom = newBottom;
    if (converged) break;
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
