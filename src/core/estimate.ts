/**
 * An estimate with its interval. `null` where the data can't give it (a `Note` says why);
 * a `null` limit beside a finite value is an unbounded side, with the note `unbounded`.
 */
export interface Estimate {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** A proportion keeps its counts: nothing is printed as a percentage without them. */
export interface ProportionEstimate extends Estimate {
  readonly count: number;
  readonly total: number;
}

export const NOT_ESTIMABLE: Estimate = { value: null, lower: null, upper: null };
