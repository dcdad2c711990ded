import { demand } from "../../core/check.ts";
import { InputError } from "../../core/input-error.ts";
import { type Algorithms, AlgorithmsSchema } from "./document.ts";

const ALGORITHMS_FORMAT = "fourfold-algorithms";
const CURRENT_VERSION = 1;

/** Whether a document says that it is an algorithms document, whatever else is in it. */
export function isAlgorithms(value: unknown): boolean {
  return (
    typeof value === "object" && value !== null && "format" in value && value.format === ALGORITHMS_FORMAT
  );
}

/**
 * Reads an algorithms document: checks what it is, and holds every field against the schema.
 *
 * @param value the parsed JSON
 * @throws InputError naming the first field that does not fit, or the version that can't be read
 */
export function readAlgorithms(value: unknown): Algorithms {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError(["algorithms"], "an algorithms document", value);
  }
  const { format, version } = value as Readonly<Record<string, unknown>>;
  if (format !== ALGORITHMS_FORMAT) {
    throw new InputError(["algorithms", "format"], `"${ALGORITHMS_FORMAT}"`, format);
  }
  if (version !== CURRENT_VERSION) {
    const newer = typeof version === "number" && version > CURRENT_VERSION;
    const expected = newer
      ? `a version up to ${CURRENT_VERSION} (a newer Fourfold wrote this document)`
      : `a version of the algorithms document, up to ${CURRENT_VERSION}`;
    throw new InputError(["algorithms", "version"], expected, version);
  }
  return demand(AlgorithmsSchema, value, "algorithms");
}
