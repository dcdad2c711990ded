import type * as v from "valibot";
import { demand } from "./check.ts";
import type { Note } from "./note.ts";

/** What a method returns: values in full precision, and notes on what is absent or doubtful. */
export interface Finding<Values> {
  readonly values: Values;
  readonly notes: readonly Note[];
}

/**
 * A published or recomputed case of a method. Shown to the student ("reproduce this example")
 * and executed by the tests: one list, two uses.
 */
export interface WorkedExample {
  /** Short and unique within the method. */
  readonly name: string;
  readonly input: unknown;
  readonly options?: unknown;
  /** Dotted paths into the values, with the expected number (or `null` where not estimable). */
  readonly expect: Readonly<Record<string, number | string | null>>;
  /** Relative tolerance; `decimals` instead where only printed digits are known. */
  readonly tolerance: { readonly relative: number } | { readonly decimals: number };
  /** Key into the list of sources, or words where there is no publication. */
  readonly source: string;
  /** What recomputed the numbers outside this project, with its version. */
  readonly recomputedBy?: string;
  /** The published value or formula was recalled, not seen in its source. Said wherever shown. */
  readonly memory?: boolean;
}

/** One entry of the catalogue. Made by `defineMethod` at the end of a method's file. */
export interface Method<
  Input extends v.GenericSchema = v.GenericSchema,
  Options extends v.GenericSchema = v.GenericSchema,
  Values extends v.GenericSchema = v.GenericSchema,
> {
  /** `area.name`, as its file `methods/area/name.ts`. */
  readonly id: string;
  /** Raised when a value is renamed or changes its meaning. */
  readonly version: number;
  readonly title: string;
  /** The question it answers, in the user's words. */
  readonly question: string;
  /** The formula in plain text or TeX-free notation, for the student. */
  readonly formula: string;
  /** When it behaves badly. */
  readonly caution: string;
  /** Keys into `methods/sources.ts`, the first being the main one. */
  readonly sources: readonly [string, ...string[]];
  readonly input: Input;
  readonly options: Options;
  readonly values: Values;
  readonly examples: readonly [WorkedExample, ...WorkedExample[]];
  run(input: v.InferOutput<Input>, options: v.InferOutput<Options>): Finding<v.InferOutput<Values>>;
}

/** Checks nothing at run time: it ties the types of schemas and function together. */
export function defineMethod<
  Input extends v.GenericSchema,
  Options extends v.GenericSchema,
  Values extends v.GenericSchema,
>(method: Method<Input, Options, Values>): Method<Input, Options, Values> {
  return method;
}

/** A method's finding with what was asked, as it stands in the evaluation document. */
export interface Computed<Input = unknown, Options = unknown, Values = unknown> {
  readonly method: string;
  readonly version: number;
  readonly input: Input;
  readonly options: Options;
  readonly values: Values;
  readonly notes: readonly Note[];
}

/**
 * Runs a method on input of unknown shape.
 * @throws InputError naming the first field that does not fit the method's schemas
 */
export function compute<
  Input extends v.GenericSchema,
  Options extends v.GenericSchema,
  Values extends v.GenericSchema,
>(
  method: Method<Input, Options, Values>,
  input: v.InferInput<Input>,
  options?: v.InferInput<Options>,
): Computed<v.InferOutput<Input>, v.InferOutput<Options>, v.InferOutput<Values>> {
  const asked = demand(method.input, input, "input");
  const chosen = demand(method.options, options ?? {}, "options");
  const { values, notes } = method.run(asked, chosen);
  return { method: method.id, version: method.version, input: asked, options: chosen, values, notes };
}
