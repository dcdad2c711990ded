import { count } from "../../formats.ts";

const SMALL = [
  "none",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/** Small numbers as words in running text, larger ones as digits. */
export function numberWord(value: number): string {
  return SMALL[value] ?? count(value);
}

/** "1 person", "1,541 people". */
export function counted(value: number, one: string, many: string): string {
  return `${count(value)} ${value === 1 ? one : many}`;
}

export const people = (value: number) => counted(value, "person", "people");

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[], word = "and"): string {
  if (items.length < 2) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} ${word} ${items.at(-1)}`;
}

/** A full stop at the end, unless the text has its own. */
export function closed(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

/**
 * A title inside a sentence: without its capital, unless that belongs to it ("HBsAg", "EDTA plasma").
 */
export function inline(text: string): string {
  return /^[A-Z][a-z]+(?![A-Za-z])/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

/** The first letter as a capital, for the beginning of a sentence. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
