import { demand } from "../../core/check.ts";
import { type Algorithms, AlgorithmsSchema } from "./document.ts";

/**
 * The algorithms document as JSON text. Keys stand in the order of the schema, numbers in full precision, one field
 * a line: the same document always gives the same bytes.
 *
 * @throws InputError when the value is not a valid algorithms document
 */
export function writeAlgorithms(algorithms: Algorithms): string {
  return `${JSON.stringify(demand(AlgorithmsSchema, algorithms, "algorithms"), null, 1)}\n`;
}
