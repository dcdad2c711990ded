/** A characteristic function E[exp(i t X)] at t = step / 2, 3 step / 2, 5 step / 2, … until it has died away. */
export interface Characteristic {
  readonly step: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/**
 * P(X <= x) from the characteristic function. The sum errs by less than the chance to lie further than 2 pi / step
 * from x, besides what of the function is left out.
 *
 * Source: Davies 1973 (Biometrika 60, 415-417), recalled
 */
export function characteristicCdf({ step, real, imaginary }: Characteristic, x: number): number {
  let sum = 0;
  let [cosine, sine] = [Math.cos((step * x) / 2), Math.sin((step * x) / 2)];
  const [c, s] = [Math.cos(step * x), Math.sin(step * x)];
  for (let k = 0; k < real.length; k += 1) {
    sum += ((imaginary[k] as number) * cosine - (real[k] as number) * sine) / (k + 0.5);
    // One turn further: cosine and sine of a sum.
    const before = cosine;
    cosine = before * c - sine * s;
    sine = sine * c + before * s;
  }
  return 0.5 - sum / Math.PI;
}

/** The density at x, by the same sum. */
export function characteristicDensity({ step, real, imaginary }: Characteristic, x: number): number {
  let sum = 0;
  for (let k = 0; k < real.length; k += 1) {
    const turn = (k + 0.5) * step * x;
    sum += (real[k] as number) * Math.cos(turn) + (imaginary[k] as number) * Math.sin(turn);
  }
  return (sum * step) / Math.PI;
}

/**
 * Mean and standard deviation of 1 / (1 + exp(-X)): the mean is the chance that a standard logistic variable lies
 * below X, the mean square the chance that the larger of two does. Both are had from the characteristic function
 * of the difference, provided that 2 pi / step spans X and 30 more.
 */
export function expitMoments({ step, real, imaginary }: Characteristic): {
  mean: number;
  standardDeviation: number;
} {
  let mean = 0.5;
  let square = 0.5;
  for (let k = 0; k < real.length; k += 1) {
    const t = (k + 0.5) * step;
    const [x, y] = [real[k] as number, imaginary[k] as number];
    // That of a standard logistic variable: pi t / sinh(pi t); times 1 - it for the larger of two, turned.
    const logistic = (2 * Math.PI * t * Math.exp(-Math.PI * t)) / -Math.expm1(-2 * Math.PI * t);
    const share = logistic / (Math.PI * (k + 0.5));
    mean += share * y;
    square += share * (y - t * x);
  }
  return { mean, standardDeviation: Math.sqrt(Math.max(0, square - mean ** 2)) };
}
