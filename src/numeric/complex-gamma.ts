/** A complex number for every place of a table, by the log of its size and by its angle. */
export interface PolarTable {
  readonly logSize: Float64Array;
  readonly angle: Float64Array;
}

/** Stirling's series is exact to a double from here on. */
const STIRLING_FROM = 16;
/** Coefficients of 1/z, 1/z³, …: Bernoulli numbers over 2k (2k - 1). Source: DLMF 5.11.1. */
const SERIES = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];

/**
 * Gamma(c + k + it) / Gamma(c + k) for k = 0 … steps: what the imaginary part does to a gamma function. Its size
 * is 1 or less. Stirling's series with its large terms taken together, so that large shapes lose nothing; from
 * place to place by Gamma(z + 1) = z Gamma(z).
 *
 * @param shape c, above 0
 * @param imaginary t, any number
 */
export function gammaTurn(shape: number, imaginary: number, steps: number): PolarTable {
  const logSize = new Float64Array(steps + 1);
  const angle = new Float64Array(steps + 1);
  let [size, turn] = firstTurn(shape, imaginary);
  for (let k = 0; ; k += 1) {
    logSize[k] = size;
    angle[k] = turn;
    if (k === steps) return { logSize, angle };
    const real = shape + k;
    size += Math.log1p((imaginary / real) ** 2) / 2;
    turn += Math.atan2(imaginary, real);
  }
}

function firstTurn(shape: number, imaginary: number): [number, number] {
  const shifts = Math.max(0, Math.ceil(STIRLING_FROM - shape));
  const real = shape + shifts;
  const theta = Math.atan2(imaginary, real);
  const growth = Math.log1p((imaginary / real) ** 2) / 2;
  let size = (real - 0.5) * growth - imaginary * theta;
  let turn = (real - 0.5) * theta + imaginary * (Math.log(real) + growth - 1);
  const radius = real * Math.exp(growth);
  SERIES.forEach((coefficient, place) => {
    const power = 2 * place + 1;
    size += coefficient * (Math.cos(power * theta) * radius ** -power - real ** -power);
    turn -= coefficient * Math.sin(power * theta) * radius ** -power;
  });
  for (let k = 0; k < shifts; k += 1) {
    size -= Math.log1p((imaginary / (shape + k)) ** 2) / 2;
    turn -= Math.atan2(imaginary, shape + k);
  }
  return [size, turn];
}
