import { InputError } from "../../../core/input-error.ts";
import { type Computed, compute } from "../../../core/method.ts";
import { findMethod } from "../../../methods/index.ts";
import { type Tell, whole } from "../step.ts";

export interface MethodAsk {
  readonly id: string;
  readonly input: unknown;
  readonly options: unknown;
}

/** What came of asking a method: its finding, or the first thing asked that does not fit. */
export type MethodGiven =
  | { readonly ok: true; readonly computed: Computed }
  | {
      readonly ok: false;
      /** Begins with `input` or `options` where the fault is at a field. */
      readonly path: readonly string[];
      readonly expected: string;
      readonly received: string;
      readonly message: string;
    };

/** Runs one method of the catalogue. */
export async function computeMethod({ id, input, options }: MethodAsk, tell: Tell): Promise<MethodGiven> {
  const method = findMethod(id);
  if (method === undefined) throw new InputError(["method"], "the id of a method", id);
  await tell(whole("computing"));
  try {
    return { ok: true, computed: compute(method, input, options) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { path, expected, received, message } = error;
    return { ok: false, path, expected, received, message };
  }
}
