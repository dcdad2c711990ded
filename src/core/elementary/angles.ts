/*
 * After the algorithms of the Freely Distributable LIBM, whose notice is:
 *
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice
 * is preserved.
 */
import { expm1 } from "./exponential.ts";
import { highWord, shortened } from "./words.ts";

const HALF_PI_PARTS = [1.5707963267341256, 6.077100506303966e-11, 2.0222662487111665e-21] as const;
const HALF_PI_TAILS = [6.077100506506192e-11, 2.0222662487959506e-21, 8.4784276603689e-32] as const;
const TWO_OVER_PI = 0.6366197723675814;
/** Beyond this the reduction by parts of π loses digits. */
export const LARGEST_ANGLE = 2 ** 20;

interface Reduced {
  readonly quarter: number;
  readonly high: number;
  readonly low: number;
}

/** Sine of an angle up to `LARGEST_ANGLE` either way. */
export function sin(x: number): number {
  if (Math.abs(x) < 2 ** -27) return x;
  const { quarter, high, low } = reduced(x);
  const value = quarter % 2 === 0 ? sinNear(high, low) : cosNear(high, low);
  return quarter >= 2 ? -value : value;
}

/** Cosine of an angle up to `LARGEST_ANGLE` either way. */
export function cos(x: number): number {
  const { quarter, high, low } = reduced(x);
  const value = quarter % 2 === 0 ? cosNear(high, low) : sinNear(high, low);
  return quarter === 1 || quarter === 2 ? -value : value;
}

/** The angle less whole quarters of the circle, in two parts; `quarter`: 0 to 3. */
function reduced(x: number): Reduced {
  if (Math.abs(x) <= Math.PI / 4) return { quarter: 0, high: x, low: 0 };
  const quarters = Math.round(x * TWO_OVER_PI);
  const exponent = (highWord(x) >> 20) & 0x7ff;
  let rest = x - quarters * HALF_PI_PARTS[0];
  let tail = quarters * HALF_PI_TAILS[0];
  let high = rest - tail;
  for (const [step, lost] of [16, 49].entries()) {
    if (exponent - ((highWord(high) >> 20) & 0x7ff) <= lost) break;
    const before = rest;
    const part = quarters * (HALF_PI_PARTS[step + 1] as number);
    rest = before - part;
    tail = quarters * (HALF_PI_TAILS[step + 1] as number) - (before - rest - part);
    high = rest - tail;
  }
  return { quarter: ((quarters % 4) + 4) % 4, high, low: rest - high - tail };
}

function sinNear(x: number, low: number): number {
  const z = x * x;
  const r =
    0.00833333333332249 +
    z * (-0.0001984126982985795 + z * 2.7557313707070068e-6) +
    z * z * z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10);
  const cube = z * x;
  return low === 0
    ? x + cube * (-0.16666666666666632 + z * r)
    : x - (z * (0.5 * low - cube * r) - low - cube * -0.16666666666666632);
}

function cosNear(x: number, low: number): number {
  const z = x * x;
  const w = z * z;
  const r =
    z * (0.0416666666666666 + z * (-0.001388888888887411 + z * 2.480158728947673e-5)) +
    w * w * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 - z * 1.1359647557788195e-11));
  const half = 0.5 * z;
  const most = 1 - half;
  return most + (1 - most - half + (z * r - x * low));
}

/** Of asin in the square of the sine. */
function asinSeries(z: number): number {
  const above =
    z *
    (0.16666666666666666 +
      z *
        (-0.3255658186224009 +
          z *
            (0.20121253213486293 +
              z * (-0.04005553450067941 + z * (0.0007915349942898145 + z * 3.479331075960212e-5)))));
  const below =
    1 +
    z * (-2.403394911734414 + z * (2.0209457602335057 + z * (-0.6882839716054533 + z * 0.07703815055590194)));
  return above / below;
}

const HALF_PI_HIGH = 1.5707963267948966;
const HALF_PI_LOW = 6.123233995736766e-17;

/** Angle of a sine, from -π/2 to π/2. */
export function asin(x: number): number {
  const size = Math.abs(x);
  if (!(size <= 1)) return Number.NaN;
  if (size === 1) return x * HALF_PI_HIGH + x * HALF_PI_LOW;
  if (size < 0.5) return size < 2 ** -27 ? x : x + x * asinSeries(x * x);
  const z = (1 - size) * 0.5;
  const series = asinSeries(z);
  const root = Math.sqrt(z);
  if (size >= 0.975) return Math.sign(x) * (HALF_PI_HIGH - (2 * (root + root * series) - HALF_PI_LOW));
  const high = shortened(root);
  const rest = (z - high * high) / (root + high);
  const p = 2 * root * series - (HALF_PI_LOW - 2 * rest);
  const q = Math.PI / 4 - 2 * high;
  return Math.sign(x) * (Math.PI / 4 - (p - q));
}

/** Angle of a cosine, from 0 to π. */
export function acos(x: number): number {
  const size = Math.abs(x);
  if (!(size <= 1)) return Number.NaN;
  if (size === 1) return x > 0 ? 0 : Math.PI + 2 * HALF_PI_LOW;
  if (size < 0.5) {
    if (size < 2 ** -57) return HALF_PI_HIGH + HALF_PI_LOW;
    return HALF_PI_HIGH - (x - (HALF_PI_LOW - x * asinSeries(x * x)));
  }
  const z = (1 - size) * 0.5;
  const root = Math.sqrt(z);
  const series = asinSeries(z);
  if (x < 0) return Math.PI - 2 * (root + (series * root - HALF_PI_LOW));
  const high = shortened(root);
  const rest = (z - high * high) / (root + high);
  return 2 * (high + (series * root + rest));
}

/** Hyperbolic tangent. */
export function tanh(x: number): number {
  const size = Math.abs(x);
  if (Number.isNaN(x) || size < 2 ** -28) return x;
  if (size >= 22) return Math.sign(x);
  const t = size >= 1 ? expm1(2 * size) : expm1(-2 * size);
  return Math.sign(x) * (size >= 1 ? 1 - 2 / (t + 2) : -t / (t + 2));
}
