/*
 * After the algorithms of the Freely Distributable LIBM, whose notice is:
 *
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice
 * is preserved.
 */
import { expSeries } from "./exponential.ts";
import { highWord, scaled, shortened, withHighWord } from "./words.ts";

const FRACTION = 0xfffff;
const ABSOLUTE = 0x7fffffff;
const CP = 0.9617966939259756;
const CP_HIGH = 0.9617967009544373;
const CP_LOW = -7.028461650952758e-9;
const LN2_HIGH = 0.6931471824645996;
const LN2_LOW = -1.904654299957768e-9;
/** log2 of 1.5, in two parts. */
const HALF_STEP = { high: 0.5849624872207642, low: 1.350039202129749e-8 };

interface Pair {
  readonly high: number;
  readonly low: number;
}

/** x to the power y, as ECMAScript defines its cases: error below one unit in the last place. */
export function pow(x: number, y: number): number {
  if (y === 0) return 1;
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  if (y === 1) return x;
  if (y === 2) return x * x;
  if (y === -1) return 1 / x;
  if (y === 0.5 && x >= 0) return Math.sqrt(x) + 0;
  const size = Math.abs(x);
  if (!Number.isFinite(y)) return ofInfinite(size, y);
  const negative = (x < 0 || Object.is(x, -0)) && isOdd(y);
  if (x < 0 && Number.isFinite(x) && !Number.isInteger(y)) return Number.NaN;
  const sign = negative ? -1 : 1;
  if (size === 0 || size === Number.POSITIVE_INFINITY) {
    return (size === 0) === y > 0 ? sign * 0 : sign * Number.POSITIVE_INFINITY;
  }
  if (size === 1) return sign;
  return sign * positivePower(size, y);
}

/** x > 0, not 1, both finite. */
function positivePower(x: number, y: number): number {
  const far = Math.abs(y) > 2 ** 31;
  if (far && (Math.abs(x - 1) > 2 ** -20 || Math.abs(y) > 2 ** 64)) {
    return x < 1 === y < 0 ? Number.POSITIVE_INFINITY : 0;
  }
  const { high, low } = far ? log2NearOne(x) : log2Of(x);
  const yHigh = shortened(y);
  const rest = (y - yHigh) * high + y * low;
  const most = yHigh * high;
  const exponent = rest + most;
  if (exponent > 1024 || (exponent === 1024 && rest + 8.008566259537294e-17 > exponent - most)) {
    return Number.POSITIVE_INFINITY;
  }
  if (exponent < -1075 || (exponent === -1075 && rest <= exponent - most)) return 0;
  return twoTo(exponent, most, rest);
}

function ofInfinite(size: number, y: number): number {
  if (size === 1) return Number.NaN;
  return size > 1 === y > 0 ? Number.POSITIVE_INFINITY : 0;
}

function isOdd(y: number): boolean {
  return Number.isInteger(y) && Math.abs(y % 2) === 1;
}

/** Logarithm to base 2 in two parts, some 70 bits together. */
function log2Of(x: number): Pair {
  const subnormal = x < 2 ** -1022;
  const normal = subnormal ? x * 2 ** 53 : x;
  const word = highWord(normal);
  const bits = word & FRACTION;
  const half = bits > 0x3988e && bits < 0xbb67a;
  const over = bits >= 0xbb67a;
  const exponent = (word >> 20) - 1023 - (subnormal ? 53 : 0) + (over ? 1 : 0);
  const top = (bits | 0x3ff00000) - (over ? 0x100000 : 0);
  const fraction = withHighWord(normal, top);
  const base = half ? 1.5 : 1;
  const ratio = ratioOf(fraction, base, ((top >> 1) | 0x20000000) + 0x80000 + (half ? 1 << 18 : 0));
  const { high, low } = seriesOf(ratio);
  const step = half ? HALF_STEP : { high: 0, low: 0 };
  const product = CP_HIGH * high;
  const remainder = CP_LOW * high + low * CP + step.low;
  const sum = shortened(product + remainder + step.high + exponent);
  return { high: sum, low: remainder - (sum - exponent - step.high - product) };
}

/** (x - b) / (x + b) in two parts. */
function ratioOf(x: number, base: number, sumWord: number): Pair & { readonly whole: number } {
  const above = x - base;
  const inverse = 1 / (x + base);
  const whole = above * inverse;
  const high = shortened(whole);
  const sumHigh = withHighWord(0, sumWord);
  const sumLow = x - (sumHigh - base);
  return { whole, high, low: inverse * (above - high * sumHigh - high * sumLow) };
}

function seriesOf({ whole, high, low }: Pair & { readonly whole: number }): Pair {
  const square = whole * whole;
  const tail =
    square *
      square *
      (0.5999999999999946 +
        square *
          (0.4285714285785502 +
            square *
              (0.33333332981837743 +
                square *
                  (0.272728123808534 + square * (0.23066074577556175 + square * 0.20697501780033842))))) +
    low * (high + whole);
  const squareHigh = high * high;
  const termHigh = shortened(3 + squareHigh + tail);
  const termLow = tail - (termHigh - 3 - squareHigh);
  const u = high * termHigh;
  const v = low * termHigh + termLow * whole;
  const sum = shortened(u + v);
  return { high: sum, low: v - (sum - u) };
}

/** The same where |x - 1| is below 2^-20. */
function log2NearOne(x: number): Pair {
  const t = x - 1;
  const w = t * t * (0.5 - t * (0.3333333333333333 - t * 0.25));
  const u = 1.4426950216293335 * t;
  const v = t * 1.9259629911266175e-8 - w * Math.LOG2E;
  const high = shortened(u + v);
  return { high, low: v - (high - u) };
}

/** 2 to the power `most + rest`, whose sum rounds to `exponent`. */
function twoTo(exponent: number, most: number, rest: number): number {
  const word = highWord(exponent);
  const wholePart = (word & ABSOLUTE) > 0x3fe00000 ? Math.floor(Math.abs(exponent) + 0.5) : 0;
  const doublings = exponent < 0 ? -wholePart : wholePart;
  const top = most - doublings;
  const t = shortened(rest + top);
  const u = t * LN2_HIGH;
  const v = (rest - (t - top)) * Math.LN2 + t * LN2_LOW;
  const z = u + v;
  const w = v - (z - u);
  const square = z * z;
  const c = z - square * expSeries(square);
  const found = 1 - ((z * c) / (c - 2) - (w + z * w) - z);
  return scaled(found, doublings);
}
