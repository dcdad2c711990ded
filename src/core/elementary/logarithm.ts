/*
 * After the algorithms of the Freely Distributable LIBM, whose notice is:
 *
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice
 * is preserved.
 */
import { highWord, withHighWord } from "./words.ts";

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const FRACTION = 0xfffff;
const ONE = 0x3ff00000;

/** Natural logarithm: error below one unit in the last place. */
export function log(x: number): number {
  if (Number.isNaN(x) || x < 0) return Number.NaN;
  if (x === 0) return Number.NEGATIVE_INFINITY;
  if (x === Number.POSITIVE_INFINITY) return x;
  const { fraction, exponent, bits } = split(x);
  const f = fraction - 1;
  if ((FRACTION & (2 + bits)) < 3) return nearOne(f, exponent);
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const even = w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  const odd =
    z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586)));
  const rest = odd + even;
  if (((bits - 0x6147a) | (0x6b851 - bits)) > 0) {
    const half = 0.5 * f * f;
    if (exponent === 0) return f - (half - s * (half + rest));
    return exponent * LN2_HIGH - (half - (s * (half + rest) + exponent * LN2_LOW) - f);
  }
  if (exponent === 0) return f - s * (f - rest);
  return exponent * LN2_HIGH - (s * (f - rest) - exponent * LN2_LOW - f);
}

/** x as 2^exponent times a fraction between √½ and √2; `bits`: the first of the fraction's bits. */
function split(x: number) {
  const subnormal = x < 2 ** -1022;
  const normal = subnormal ? x * 2 ** 54 : x;
  const high = highWord(normal);
  const bits = high & FRACTION;
  const over = (bits + 0x95f64) & 0x100000;
  const exponent = (high >> 20) - 1023 + (over >> 20) - (subnormal ? 54 : 0);
  return { fraction: withHighWord(normal, bits | (over ^ ONE)), exponent, bits };
}

function nearOne(f: number, exponent: number): number {
  if (f === 0) return exponent === 0 ? 0 : exponent * LN2_HIGH + exponent * LN2_LOW;
  const rest = f * f * (0.5 - 0.3333333333333333 * f);
  if (exponent === 0) return f - rest;
  return exponent * LN2_HIGH - (rest - exponent * LN2_LOW - f);
}

/** Natural logarithm of 1 + x: no digits are lost near 0. */
export function log1p(x: number): number {
  if (Number.isNaN(x) || x < -1) return Number.NaN;
  if (x === -1) return Number.NEGATIVE_INFINITY;
  if (x === Number.POSITIVE_INFINITY || x === 0) return x;
  const size = Math.abs(x);
  if (size < 2 ** -29) return size < 2 ** -54 ? x : x - x * x * 0.5;
  const whole = x > -0.2928932188134525 && x < 0.41421356237309503;
  const { f, exponent, correction, flat } = whole
    ? { f: x, exponent: 0, correction: 0, flat: false }
    : shifted(x);
  const half = 0.5 * f * f;
  if (flat) {
    if (f === 0) return exponent * LN2_HIGH + (correction + exponent * LN2_LOW);
    const near = half * (1 - 0.6666666666666666 * f);
    return exponent * LN2_HIGH - (near - (exponent * LN2_LOW + correction) - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  const rest = z * log1pSeries(z);
  if (exponent === 0) return f - (half - s * (half + rest));
  return exponent * LN2_HIGH - (half - (s * (half + rest) + (exponent * LN2_LOW + correction)) - f);
}

function log1pSeries(z: number): number {
  const high = 0.1818357216161805 + z * (0.15313837699209373 + z * 0.14798198605116586);
  return (
    0.6666666666666735 +
    z * (0.3999999999940942 + z * (0.2857142874366239 + z * (0.22222198432149784 + z * high)))
  );
}

/** 1 + x as 2^exponent times 1 + f, with what the sum lost. */
function shifted(x: number) {
  const sum = x < 2 ** 53 ? 1 + x : x;
  const high = highWord(sum);
  const power = (high >> 20) - 1023;
  const lost = x >= 2 ** 53 ? 0 : power > 0 ? 1 - (sum - x) : x - (sum - 1);
  const bits = high & FRACTION;
  const upper = bits >= 0x6a09e;
  const fraction = withHighWord(sum, bits | (upper ? 0x3fe00000 : ONE));
  const flat = upper ? (0x100000 - bits) >> 2 === 0 : bits === 0;
  return { f: fraction - 1, exponent: upper ? power + 1 : power, correction: lost / sum, flat };
}

const LOG10_2_HIGH = 0.30102999566361177;
const LOG10_2_LOW = 3.694239077158931e-13;

/** Logarithm to base 10; whole for the whole powers of 10 that are exact. */
export function log10(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return log(x);
  const { fraction, exponent } = whole(x);
  return exponent * LOG10_2_LOW + Math.LOG10E * log(fraction) + exponent * LOG10_2_HIGH;
}

/** Logarithm to base 2; whole for whole powers of 2. */
export function log2(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return log(x);
  const { fraction, exponent } = whole(x);
  return exponent + Math.LOG2E * log(fraction);
}

/** x as 2^exponent times a fraction from 1 to 2, or from ½ to 1 for x below 1. */
function whole(x: number) {
  const subnormal = x < 2 ** -1022;
  const normal = subnormal ? x * 2 ** 54 : x;
  const high = highWord(normal);
  const exponent = (high >> 20) - 1023 - (subnormal ? 54 : 0);
  const below = exponent < 0 ? 1 : 0;
  const fraction = withHighWord(normal, (high & FRACTION) | ((1023 - below) << 20));
  return { fraction, exponent: exponent + below };
}
