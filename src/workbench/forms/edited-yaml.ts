import { parseDocument } from "yaml";
import { type Edit, edited } from "./edit.ts";
import { sameValue } from "./same-value.ts";
import { YAML } from "./yaml-dialect.ts";
import { splice } from "./yaml-splice.ts";
import { wholeEdited } from "./yaml-whole.ts";

/** The value of a YAML text, or `null` where it can't be read and so can't be shown in a form. */
export function valueOfYaml(text: string): { readonly value: unknown } | null {
  const parsed = parseDocument(text, YAML);
  if (parsed.errors.length > 0) return null;
  try {
    const value: unknown = parsed.toJS({ maxAliasCount: 50 });
    return typeof value === "object" && value !== null ? { value } : null;
  } catch {
    return null;
  }
}

/**
 * A YAML text with an edit applied. Only the place of the edit is written anew: comments, order, quotes and
 * spaces elsewhere stay. Where that can't be done the document is written as a whole, comments kept.
 */
export function editedYaml(text: string, edit: Edit): string {
  const before = valueOfYaml(text);
  if (before === null) return text;
  const wanted = edited(before.value, edit);
  const spliced = splice(text, edit);
  if (spliced !== null && sameValue(valueOfYaml(spliced)?.value, wanted)) return spliced;
  return wholeEdited(text, edit, wanted);
}
