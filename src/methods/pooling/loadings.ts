/**
 * How the two logits of a study spread: first = mean + a z1, second = mean + b z1 + c z2 with standard normal z1, z2.
 * Any covariance matrix has such loadings, singular ones included (c = 0: the correlation is 1 or -1).
 */
export interface Loadings {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** Standard deviations and correlation; no correlation where one of the two does not vary. */
export interface Spread {
  readonly first: number;
  readonly second: number;
  readonly correlation: number | null;
}

export function spreadOf({ a, b, c }: Loadings): Spread {
  const second = Math.hypot(b, c);
  const correlation = a === 0 || second === 0 ? null : (Math.sign(a) * b) / second;
  return { first: Math.abs(a), second, correlation };
}

export function loadingsOf({ first, second, correlation }: Spread): Loadings {
  const share = correlation ?? 0;
  return { a: first, b: share * second, c: Math.sqrt(1 - share * share) * second };
}

/** Loadings as offset + matrix × free numbers: what is free, and what is held. */
export interface Shape {
  readonly offset: readonly [number, number, number];
  /** Three rows (a, b, c), one column per free number. */
  readonly matrix: readonly (readonly number[])[];
  /** Whether the free numbers may not fall below 0. */
  readonly nonNegative: boolean;
  /** Free numbers near these loadings. */
  readonly near: (loadings: Loadings) => number[];
}

const NONE = [0, 0, 0] as const;

/** At a loading of 0 the likelihood is level, be it a top or a saddle: no search may begin there. */
const off = (loading: number, least: number) =>
  Math.abs(loading) >= least ? loading : (Math.sign(loading) || 1) * least;

export const FREE: Shape = {
  offset: NONE,
  matrix: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  nonNegative: false,
  near: ({ a, b, c }) => [off(a, 0.05), b, off(c, 0.05 + 0.1 * Math.abs(b))],
};

/** The correlation is 1 or -1. */
export const TIED: Shape = {
  offset: NONE,
  matrix: [
    [1, 0],
    [0, 1],
    [0, 0],
  ],
  nonNegative: false,
  near: ({ a, b, c }) => [off(a, 0.05), off((Math.sign(b) || 1) * Math.hypot(b, c), 0.05)],
};

/** Only the second logit varies. */
export const SECOND_ALONE: Shape = {
  offset: NONE,
  matrix: [[0], [0], [1]],
  nonNegative: false,
  near: ({ b, c }) => [off(Math.hypot(b, c), 0.05)],
};

/** Only the first logit varies. */
export const FIRST_ALONE: Shape = {
  offset: NONE,
  matrix: [[1], [0], [0]],
  nonNegative: false,
  near: ({ a }) => [off(a, 0.05)],
};

/** Neither varies. */
export const FIXED: Shape = { offset: NONE, matrix: [[], [], []], nonNegative: false, near: () => [] };

/** The first standard deviation is held. */
export function firstHeld(deviation: number): Shape {
  if (deviation === 0) return SECOND_ALONE;
  return {
    offset: [deviation, 0, 0],
    matrix: [
      [0, 0],
      [1, 0],
      [0, 1],
    ],
    nonNegative: false,
    near: ({ b, c }) => [b, off(c, 0.05 + 0.1 * Math.abs(b))],
  };
}

/** The correlation is held; the two standard deviations are free and not negative. */
export function correlationHeld(correlation: number): Shape {
  return {
    offset: NONE,
    matrix: [
      [1, 0],
      [0, correlation],
      [0, Math.sqrt(Math.max(0, 1 - correlation * correlation))],
    ],
    nonNegative: true,
    near: ({ a, b, c }) => [Math.max(Math.abs(a), 0.05), Math.max(Math.hypot(b, c), 0.05)],
  };
}

export function loadingsAt({ offset, matrix }: Shape, free: ArrayLike<number>): Loadings {
  const [a, b, c] = offset.map((start, row) =>
    (matrix[row] as readonly number[]).reduce((sum, share, k) => sum + share * (free[k] as number), start),
  ) as [number, number, number];
  return { a, b, c };
}
