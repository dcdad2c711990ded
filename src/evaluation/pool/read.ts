import { demand } from "../../core/check.ts";
import { InputError } from "../../core/input-error.ts";
import { type Pooling, PoolingSchema } from "./document.ts";

const POOLING_FORMAT = "fourfold-pooling";
const CURRENT_VERSION = 1;

/**
 * Reads a pooling document: checks what it is, and holds every field against the schema.
 *
 * @param value the parsed JSON
 * @throws InputError naming the first field that does not fit, or the version that can't be read
 */
export function readPooling(value: unknown): Pooling {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError(["pooling"], "a pooling document", value);
  }
  const { format, version } = value as Readonly<Record<string, unknown>>;
  if (format !== POOLING_FORMAT) {
    throw new InputError(["pooling", "format"], `"${POOLING_FORMAT}"`, format);
  }
  if (version !== CURRENT_VERSION) {
    const newer = typeof version === "number" && version > CURRENT_VERSION;
    const expected = newer
      ? `a version up to ${CURRENT_VERSION} (a newer Fourfold wrote this document)`
      : `a version of the pooling document, up to ${CURRENT_VERSION}`;
    throw new InputError(["pooling", "version"], expected, version);
  }
  return demand(PoolingSchema, value, "pooling");
}
