const TOLERANCE = 2e-16;
const BIG = 2 ** 500;
const SMALL = 2 ** -500;
const MOST_STEPS = 1_000_000;

/**
 * The lower tail of a beta distribution divided by x^a y^b / B(a, b), for x below about a / (a + b):
 * a continued fraction whose terms are all positive there, evaluated forwards without a division
 * in the chain. Source: Didonato & Morris 1992 (ACM TOMS 18, 360-373), equation 9.
 *
 * @param lack a - (a + b) x, at least about 0
 */
export function betaFraction(a: number, b: number, x: number, y: number, lack: number): number {
  let inverse = 1 / (a + 1);
  let topBefore = 0;
  let bottomBefore = 1;
  let top = 1;
  let bottom = a * (lack + 1) * inverse;
  const square = x * x;
  for (let step = 1; step < MOST_STEPS; step++) {
    const next = 1 / (a + 2 * step + 1);
    const rest = step * (b - step);
    const alpha = (a + step - 1) * (a + b + step - 1) * inverse * inverse * rest * square;
    const beta = step + rest * x * inverse + (a + step) * next * (lack + 1 + step * (1 + y));
    const newTop = beta * top + alpha * topBefore;
    const newBottom = beta * bottom + alpha * bottomBefore;
    const cross = newTop * bottom;
    const change = Math.abs(cross - top * newBottom);
    topBefore = top;
    bottomBefore = bottom;
    top = newTop;
    bottom = newBottom;
    inverse = next;
    if (change <= TOLERANCE * Math.abs(cross)) break;
    if (bottom > BIG) {
      top *= SMALL;
      bottom *= SMALL;
      topBefore *= SMALL;
      bottomBefore *= SMALL;
    }
  }
  return top / bottom;
}
