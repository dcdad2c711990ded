import type { Words } from "../words/en.ts";
import type { Path } from "./edit.ts";

/** A field's name in words: its own from the table of words, else made of the name. */
export function labelOf(name: string | number, { forms }: Words): string {
  if (typeof name === "number") return forms.place(name + 1);
  return forms.fields[name] ?? capital(spaced(name));
}

/** A choice in words. */
export function choiceOf(option: string | number | boolean | null, { forms }: Words): string {
  const code = String(option);
  return forms.choices[code] ?? spaced(code);
}

/** A path in words, e.g. `Criteria 1, at least`. */
export function pathOf(path: Path, words: Words): string {
  return path.map((step) => labelOf(step, words)).join(", ");
}

/** `trueNegatives` and `true_negatives` both give `true negatives`. */
function spaced(name: string): string {
  return name
    .replace(/_/g, " ")
    .replace(/([a-z\d])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
