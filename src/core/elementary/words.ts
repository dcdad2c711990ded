/**
 * The two 32-bit words of a double (IEEE 754, binary64): sign, exponent and the first 20 bits of the
 * fraction in the high one.
 */
const double = new Float64Array(1);
const words = new Uint32Array(double.buffer);
/** Which of the two words is the high one on this machine. */
const HIGH = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1 ? 1 : 0;
const LOW = 1 - HIGH;

/** The high word as a signed integer: negative for negative numbers. */
export function highWord(value: number): number {
  double[0] = value;
  return (words[HIGH] as number) | 0;
}

export function withHighWord(value: number, high: number): number {
  double[0] = value;
  words[HIGH] = high;
  return double[0];
}

/** The number with its last 32 bits zero, so that products of two such are nearly exact. */
export function shortened(value: number): number {
  double[0] = value;
  words[LOW] = 0;
  return double[0];
}

/** 2 to a whole power from -1022 to 1023. */
export function powerOfTwo(exponent: number): number {
  return withHighWord(0, (exponent + 1023) << 20);
}

/** A number times 2 to a whole power, also where the result is subnormal. */
export function scaled(value: number, exponent: number): number {
  if (exponent > 1023) return value * powerOfTwo(1023) * powerOfTwo(Math.min(1023, exponent - 1023));
  if (exponent >= -1022) return value * powerOfTwo(exponent);
  return value * powerOfTwo(Math.max(-1022, exponent + 54)) * powerOfTwo(-54);
}
