/**
 * Derivatives of a smooth function of several numbers by central differences of the fourth order: the error is
 * about the fourth power of the step, plus the function's own rounding over the step.
 *
 * @param f    a function with values near `at`
 * @param step how far to look to either side, the same for all places
 * Source: Abramowitz and Stegun 1964, 25.3.4 and 25.3.25 (memory)
 */
export function gradientByDifferences(
  f: (at: Float64Array) => number,
  at: Float64Array,
  step = 1e-3,
): Float64Array {
  return at.map((_, place) => {
    const shifted = (by: number) => f(moved(at, place, by));
    return (8 * (shifted(step) - shifted(-step)) - (shifted(2 * step) - shifted(-2 * step))) / (12 * step);
  });
}

/** The second derivatives, row by row, by differences of a gradient that is known. */
export function hessianOfGradient(
  gradient: (at: Float64Array) => Float64Array,
  at: Float64Array,
  step = 1e-3,
): Float64Array {
  const size = at.length;
  const columns = Array.from(at, (_, place) => {
    const [near, back] = [gradient(moved(at, place, step)), gradient(moved(at, place, -step))];
    const [far, farBack] = [gradient(moved(at, place, 2 * step)), gradient(moved(at, place, -2 * step))];
    return near.map(
      (value, row) =>
        (8 * (value - (back[row] as number)) - ((far[row] as number) - (farBack[row] as number))) /
        (12 * step),
    );
  });
  return Float64Array.from({ length: size * size }, (_, cell) => {
    const [row, column] = [Math.floor(cell / size), cell % size];
    const one = (columns[column] as Float64Array)[row] as number;
    return (one + ((columns[row] as Float64Array)[column] as number)) / 2;
  });
}

function moved(at: Float64Array, place: number, by: number): Float64Array {
  const next = Float64Array.from(at);
  next[place] = (at[place] as number) + by;
  return next;
}
