import * as v from "valibot";
import { InputError } from "./input-error.ts";

/** One fault found by a schema. */
export interface Fault {
  readonly path: readonly (string | number)[];
  readonly expected: string;
  readonly received: unknown;
}

export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** Holds a value against a schema; every fault is returned, not only the first. */
export function check<S extends v.GenericSchema>(schema: S, value: unknown): Checked<v.InferOutput<S>> {
  const outcome = v.safeParse(schema, value);
  if (outcome.success) return { ok: true, value: outcome.output };
  return { ok: false, faults: outcome.issues.flatMap((issue) => faultsOf(issue, [])) };
}

/** As `check`, but throws an `InputError` for the first fault, its path beginning with `place`. */
export function demand<S extends v.GenericSchema>(
  schema: S,
  value: unknown,
  place: string,
): v.InferOutput<S> {
  const outcome = check(schema, value);
  if (outcome.ok) return outcome.value;
  const first = outcome.faults[0] as Fault;
  throw new InputError([place, ...first.path], first.expected, first.received);
}

function faultsOf(issue: v.BaseIssue<unknown>, outer: readonly (string | number)[]): Fault[] {
  const path = [...outer, ...(issue.path?.map((step) => step.key as string | number) ?? [])];
  return [{ path, expected: expectedOf(issue), received: issue.input }];
}

/** The schema's own words where it has any ("expected …"), else valibot's expectation in plain words. */
function expectedOf(issue: v.BaseIssue<unknown>): string {
  if (issue.message.startsWith("expected ")) return issue.message.slice("expected ".length);
  if (issue.expected === "never") return "no such field";
  if (issue.input === undefined) return "a value (the field is missing)";
  return issue.expected === null ? issue.message : plain(issue.expected);
}

function plain(expected: string): string {
  const words: Record<string, string> = {
    number: "a number",
    string: "text",
    Array: "a list",
    Object: "a mapping of fields",
    boolean: "true or false",
    integer: "a whole number",
  };
  return words[expected] ?? expected.replaceAll(" | ", " or ").replace(/^\((.*)\)$/, "$1");
}
