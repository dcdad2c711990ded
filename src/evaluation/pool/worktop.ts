import type * as v from "valibot";
import { compute, type Method } from "../../core/method.ts";
import type { PoolFile, PoolMeasure } from "../../records/pool/pool-schema.ts";
import type { PoolStudy } from "../../records/pool/read-studies.ts";
import { type Carried, carried } from "../plan/asked.ts";

/** The two measures, in the order of every table. */
export const MEASURES: readonly PoolMeasure[] = ["sensitivity", "specificity"];

/** What every section works with: the file, its studies, and one way to call a method. */
export interface PoolWorktop {
  readonly file: PoolFile;
  readonly studies: readonly PoolStudy[];
  ask<Input extends v.GenericSchema, Options extends v.GenericSchema, Values extends v.GenericSchema>(
    method: Method<Input, Options, Values>,
    input: v.InferInput<Input>,
    options?: v.InferInput<Options>,
  ): Carried<v.InferOutput<Input>, v.InferOutput<Options>, v.InferOutput<Values>>;
  used(): { id: string; version: number }[];
}

export function poolWorktop(file: PoolFile, studies: readonly PoolStudy[]): PoolWorktop {
  const used = new Map<string, number>();
  return {
    file,
    studies,
    ask(method, input, options) {
      used.set(method.id, method.version);
      return carried(compute(method, input, options));
    },
    used: () =>
      [...used].map(([id, version]) => ({ id, version })).sort((one, other) => (one.id < other.id ? -1 : 1)),
  };
}

/** A study as the methods take it: without its level. */
export function countsOf({ level: _level, ...counts }: PoolStudy) {
  return counts;
}
