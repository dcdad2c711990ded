/*
 * After the algorithms of the Freely Distributable LIBM, whose notice is:
 *
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice
 * is preserved.
 */
import { highWord, powerOfTwo, scaled, withHighWord } from "./words.ts";

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const LOG2_E = Math.LOG2E;
const OVERFLOW = 709.782712893384;
const UNDERFLOW = -745.1332191019411;
const TINY = 2 ** -28;

/** e to the power x: error below one unit in the last place. */
export function exp(x: number): number {
  if (Number.isNaN(x) || x > OVERFLOW) return x > OVERFLOW ? Number.POSITIVE_INFINITY : x;
  if (x < UNDERFLOW) return 0;
  // The one common argument whose rounding goes the wrong way.
  if (x === 1) return Math.E;
  const size = Math.abs(x);
  if (size < TINY) return 1 + x;
  let high = x;
  let low = 0;
  let halvings = 0;
  if (size > 0.5 * Math.LN2) {
    halvings = size < 1.5 * Math.LN2 ? Math.sign(x) : Math.trunc(LOG2_E * x + (x < 0 ? -0.5 : 0.5));
    high = x - halvings * LN2_HIGH;
    low = halvings * LN2_LOW;
  }
  const rest = high - low;
  const square = rest * rest;
  const c = rest - square * expSeries(square);
  if (halvings === 0) return 1 - ((rest * c) / (c - 2) - rest);
  return scaled(1 - (low - (rest * c) / (2 - c) - high), halvings);
}

/** Of x coth(x / 2) - 2 in the square of x; also used for powers. */
export function expSeries(square: number): number {
  return (
    square *
      (square * (square * (square * 4.1381367970572385e-8 - 1.6533902205465252e-6) + 6.613756321437934e-5) -
        0.0027777777777015593) +
    0.16666666666666602
  );
}

/** e to the power x, less one: no digits are lost near 0. */
export function expm1(x: number): number {
  if (Number.isNaN(x) || x > OVERFLOW) return x > OVERFLOW ? Number.POSITIVE_INFINITY : x;
  const size = Math.abs(x);
  if (x < -56 * Math.LN2) return -1;
  if (size < 2 ** -54) return x;
  const { rest, correction, doublings } = reduced(x, size);
  const half = 0.5 * rest;
  const square = rest * half;
  const r = 1 + square * expm1Series(square);
  const t = 3 - r * half;
  const e = square * ((r - t) / (6 - rest * t));
  if (doublings === 0) return rest - (rest * e - square);
  return grown(rest, rest * (e - correction) - correction - square, doublings);
}

function expm1Series(square: number): number {
  return (
    -0.03333333333333313 +
    square *
      (0.0015873015872548146 +
        square * (-7.93650757867488e-5 + square * (4.008217827329362e-6 - square * 2.0109921818362437e-7)))
  );
}

/** x as a multiple of ln 2 and a rest, the rest with a correction. */
function reduced(x: number, size: number) {
  if (size <= 0.5 * Math.LN2) return { rest: x, correction: 0, doublings: 0 };
  const near = size < 1.0397207708399179;
  const doublings = near ? Math.sign(x) : Math.trunc(LOG2_E * x + (x < 0 ? -0.5 : 0.5));
  const high = x - doublings * LN2_HIGH;
  const low = doublings * LN2_LOW;
  const rest = high - low;
  return { rest, correction: high - rest - low, doublings };
}

/** 2^k (1 + x - e) - 1, in the order that loses nothing for this k. */
function grown(x: number, e: number, k: number): number {
  if (k === -1) return 0.5 * (x - e) - 0.5;
  if (k === 1) return x < -0.25 ? -2 * (e - (x + 0.5)) : 1 + 2 * (x - e);
  if (k <= -2 || k > 56) {
    const y = 1 - (e - x);
    return (k === 1024 ? withHighWord(y, highWord(y) + (k << 20)) : y * powerOfTwo(k)) - 1;
  }
  const small = powerOfTwo(-k);
  const y = k < 20 ? 1 - small - (e - x) : x - (e + small) + 1;
  return y * powerOfTwo(k);
}
