import type { WorkedExample } from "../../core/method.ts";

type Tolerance = WorkedExample["tolerance"];

/** A value that a worked example states, beside what was computed. */
export interface Compared {
  /** Dotted, as in the example. */
  readonly path: string;
  readonly expected: number | string | null;
  readonly computed: unknown;
  readonly agrees: boolean;
}

/** Everything that a worked example states, held against the values computed. */
export function compared({ expect, tolerance }: WorkedExample, values: unknown): Compared[] {
  return Object.entries(expect).map(([path, expected]) => {
    const computed = valueAt(values, path);
    return { path, expected, computed, agrees: agrees(expected, computed, tolerance) };
  });
}

/** The value at a dotted path. */
export function valueAt(values: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>(
      (value, key) => (typeof value === "object" && value !== null ? Reflect.get(value, key) : undefined),
      values,
    );
}

/** Room for the last bits of the half unit itself, which is no binary fraction. */
const LAST_BITS = 1e-9;

function agrees(expected: number | string | null, computed: unknown, tolerance: Tolerance): boolean {
  if (typeof expected !== "number" || typeof computed !== "number") return expected === computed;
  const apart = Math.abs(computed - expected);
  if ("relative" in tolerance) return apart <= tolerance.relative * Math.abs(expected);
  return apart <= 0.5 * Math.pow(10, -tolerance.decimals) * (1 + LAST_BITS);
}
