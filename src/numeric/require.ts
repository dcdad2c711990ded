import { InputError } from "../core/input-error.ts";
import type { Tail } from "./tail.ts";

/** @throws InputError unless `value` is a finite number above 0 */
export function requirePositive(name: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new InputError([name], "a finite number above 0", value);
  }
}

const LEAST_SHAPE = 1e-100;
const MOST_SHAPE = 1e16;

/** @throws InputError unless `value` is a shape or degrees of freedom that the algorithms are made for */
export function requireShape(name: string, value: number): void {
  if (!(value >= LEAST_SHAPE && value <= MOST_SHAPE)) {
    throw new InputError([name], "a number above 0 (from 1e-100 to 1e16)", value);
  }
}

/** @throws InputError unless `value` is a number from 0 to 1 */
export function requireProbability(name: string, value: number): void {
  if (!(value >= 0 && value <= 1)) throw new InputError([name], "a number between 0 and 1", value);
}

/** @throws InputError unless `value` is a number; an infinite one is allowed */
export function requireNumber(name: string, value: number): void {
  if (typeof value !== "number" || Number.isNaN(value)) throw new InputError([name], "a number", value);
}

/** @throws InputError unless `value` is a number of 0 or more; an infinite one is allowed */
export function requireNonNegative(name: string, value: number): void {
  if (!(value >= 0)) throw new InputError([name], "a number of 0 or more", value);
}

/** @throws InputError unless `value` is a whole number from 0 to 2^53 - 1 */
export function requireCount(name: string, value: number): void {
  if (!(Number.isSafeInteger(value) && value >= 0)) {
    throw new InputError([name], "a whole number of 0 or more", value);
  }
}

/** @throws InputError unless `tail` is one of the two words */
export function requireTail(tail: Tail): void {
  if (tail !== "lower" && tail !== "upper") throw new InputError(["tail"], '"lower" or "upper"', tail);
}
