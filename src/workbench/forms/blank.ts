import type { Shape } from "./shape.ts";

/**
 * What a form starts a new part with: what the schema leaves no choice about, and empty places for the
 * rest. Nothing is chosen for the user: an empty place is a fault that its field shows.
 */
export function blankOf(shape: Shape): unknown {
  switch (shape.kind) {
    case "fields":
      return Object.fromEntries(
        shape.entries.flatMap(([name, entry]) => (entry.optional ? [] : [[name, blankOf(entry)]])),
      );
    case "list":
      return shape.places?.map(blankOf) ?? Array.from({ length: shape.least }, () => blankOf(shape.item));
    case "named":
      return {};
    case "fixed":
      return shape.value;
    case "text":
      return "";
    case "cases":
      return shape.cases.length === 1 ? blankOf((shape.cases[0] as { shape: Shape }).shape) : null;
    default:
      return null;
  }
}
