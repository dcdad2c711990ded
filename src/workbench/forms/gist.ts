import type { Words } from "../words/en.ts";
import { at } from "./shape.ts";

const LONGEST = 60;

/** What stands in a part, in one line: the names of its items, or its first words. */
export function gistOf(value: unknown, { forms, bench }: Words): string {
  if (value === undefined || value === null) return forms.leftOut;
  if (typeof value !== "object") return String(value);
  if (!Array.isArray(value)) return cut(wordsOf(Object.values(value)));
  const names = value.map(nameOf).filter((name) => name !== "");
  if (names.length === 0) return forms.items(value.length);
  return cut(`${forms.items(value.length)}: ${bench.listed(names)}`);
}

/** What an item of a list is called. */
export function nameOf(item: unknown): string {
  if (typeof item !== "object") return String(item ?? "");
  const name = ["id", "type", "analyte", "title", "name", "label"].map((key) => at(item, key)).find(Boolean);
  return typeof name === "string" ? name : "";
}

function wordsOf(values: readonly unknown[]): string {
  return values.filter((value) => value !== null && typeof value !== "object").join(", ");
}

function cut(text: string): string {
  return text.length <= LONGEST ? text : `${text.slice(0, LONGEST - 1)}…`;
}
