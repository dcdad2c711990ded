/**
 * A number bent so that one tail grows and the other shrinks: x + bend (sqrt(1 + x²) - 1), |bend| below 1. Smooth,
 * rising, and straight far out, so that tails stay as heavy as they were.
 */
export function bent(x: number, bend: number): number {
  return x + bend * (Math.sqrt(1 + x * x) - 1);
}

/** How steeply it rises there. */
export function bentSlope(x: number, bend: number): number {
  return 1 + (bend * x) / Math.sqrt(1 + x * x);
}

/** The number that was bent. */
export function unbent(value: number, bend: number): number {
  const moved = value + bend;
  const rest = 1 - bend * bend;
  return (moved - bend * Math.sqrt(rest + moved * moved)) / rest;
}

/** A bent normal variable: origin + scale × bent(standard normal, bend). */
export interface BentNormal {
  readonly origin: number;
  readonly scale: number;
  readonly bend: number;
}

/** The 95 % point of the standard normal distribution. */
const REACH = 1.6448536269514722;
/** What a bend of 1 moves there, in units of the distance. */
const MOVED = (Math.sqrt(1 + REACH * REACH) - 1) / REACH;
/** Further is never bent. */
const MOST = 0.9;

/** The bent normal variable with these 5 %, 50 % and 95 % points (as far as it can be bent). */
export function bentNormalThrough(low: number, middle: number, high: number): BentNormal {
  const spread = high - low;
  const bend = spread > 0 ? (high + low - 2 * middle) / (spread * MOVED) : 0;
  return { origin: middle, scale: spread / (2 * REACH), bend: Math.min(MOST, Math.max(-MOST, bend)) };
}
