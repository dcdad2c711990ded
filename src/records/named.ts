import { suggestion } from "./nearest.ts";
import type { Fault } from "./yaml-file.ts";

/** A fault where a name is none of those known; it suggests the name that was probably meant. */
export function named(
  path: readonly (string | number)[],
  name: string,
  known: readonly string[],
  what: string,
  fault: Fault,
): void {
  if (!known.includes(name)) fault(path, `${what}${suggestion(name, known)}`, name);
}
