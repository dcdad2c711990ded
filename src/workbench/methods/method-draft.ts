import type { WorkedExample } from "../../core/method.ts";
import { blankOf } from "../forms/blank.ts";
import { sameValue } from "../forms/same-value.ts";
import { shapeOf } from "../forms/shape.ts";
import type { Work } from "../state/work.ts";

/** What a method is asked: its fields as the form has them, perhaps not fitting its schemas yet. */
export interface MethodDraft {
  readonly input: unknown;
  readonly options: unknown;
}

/** Where the id of the method that is open lies among the drafts. */
export const OPEN_METHOD = "methods";

/** Where what a method is asked lies among the drafts. */
export function methodPlace(id: string): string {
  return `methods/${id}`;
}

/** The method that is open; `null` where the list is. */
export function openMethodOf({ drafts }: Work): string | null {
  return drafts[OPEN_METHOD] ?? null;
}

export function draftText({ input, options }: MethodDraft): string {
  return JSON.stringify({ input, options });
}

/** What a text among the drafts asks; `null` where it is none of ours. */
export function readDraft(text: string | undefined): MethodDraft | null {
  if (text === undefined) return null;
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== "object" || read === null || !("input" in read) || !("options" in read)) return null;
    return { input: read.input, options: read.options };
  } catch {
    return null;
  }
}

/** An example of a method as something to ask. */
export function asked({ input, options }: WorkedExample): MethodDraft {
  return { input, options: options ?? {} };
}

/** An empty form: nothing is chosen for the user. */
export function emptyDraft(input: Parameters<typeof shapeOf>[0]): MethodDraft {
  return { input: blankOf(shapeOf(input)), options: {} };
}

/** The worked examples that ask just this: several where two sources state numbers of the same question. */
export function examplesOf(examples: readonly WorkedExample[], draft: MethodDraft): WorkedExample[] {
  return examples.filter((example) => sameValue(asked(example), draft));
}
