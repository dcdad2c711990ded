import * as v from "valibot";
import type { Computed, Method } from "../../core/method.ts";
import { Count, Notes } from "../schema/parts.ts";

/** A method's finding with what was asked of it, as the schemas of the method itself say. */
export function Asked<
  Input extends v.GenericSchema,
  Options extends v.GenericSchema,
  Values extends v.GenericSchema,
>(method: Method<Input, Options, Values>) {
  return v.pipe(
    v.strictObject({
      method: v.literal(method.id),
      version: Count,
      input: method.input,
      options: method.options,
      values: method.values,
      notes: Notes,
    }),
    v.description(method.title),
  );
}

/** A finding of a method as the planning document carries it. */
export interface Carried<Input, Options, Values> extends Omit<Computed<Input, Options, Values>, "notes"> {
  readonly notes: { code: string; path: string; message: string }[];
}

export function carried<Input, Options, Values>(
  computed: Computed<Input, Options, Values>,
): Carried<Input, Options, Values> {
  return { ...computed, notes: computed.notes.map((entry) => ({ ...entry })) };
}
