import type { Finding } from "../../src/core/method.ts";

/** Values that are `null` because nobody asked for them. */
const NOT_ASKED = ["halfAdded", "targetProbability", "drawn", "covariate"];
/** The same, deeper within the values. */
const NOT_ASKED_WITHIN = [".reaches.ppv", ".reaches.npv", ".reaches.inconclusive"];

/** Every number, word and `null` in a method's values, with its dotted path. */
export function leaves(value: unknown, path: readonly string[] = []): [string, unknown][] {
  if (typeof value !== "object" || value === null) return [[path.join("."), value]];
  return Object.entries(value).flatMap(([key, part]) => leaves(part, [...path, key]));
}

/** What is wrong with a finding as plain data: a number that is not finite, a `null` without a note. */
export function faultsOf({ values, notes }: Finding<unknown>): string[] {
  return leaves(values).flatMap(([path, value]) => {
    if (typeof value === "number" && !Number.isFinite(value)) return [`${path} is ${value}`];
    if (value !== null || NOT_ASKED.includes(path)) return [];
    if (NOT_ASKED_WITHIN.some((end) => path.endsWith(end))) return [];
    const explained = notes.some(({ path: noted }) => path === noted || path.startsWith(`${noted}.`));
    return explained ? [] : [`${path} is null without a note`];
  });
}

/** The value at a dotted path. */
export function valueAt(values: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>((value, key) => (value as Record<string, unknown> | null | undefined)?.[key], values);
}
