import { demand } from "../../core/check.ts";
import { type Pooling, PoolingSchema } from "./document.ts";

/**
 * The pooling document as JSON text. Keys stand in the order of the schema, numbers in full precision, one field a
 * line: the same document always gives the same bytes.
 *
 * @throws InputError when the value is not a valid pooling document
 */
export function writePooling(pooling: Pooling): string {
  return `${JSON.stringify(demand(PoolingSchema, pooling, "pooling"), null, 1)}\n`;
}
