import { demand } from "../../core/check.ts";
import { InputError } from "../../core/input-error.ts";
import { type Planning, PlanningSchema } from "./document.ts";

const PLANNING_FORMAT = "fourfold-planning";
const CURRENT_VERSION = 1;

/** Whether a document says that it is a planning document, whatever else is in it. */
export function isPlanning(value: unknown): boolean {
  return typeof value === "object" && value !== null && "format" in value && value.format === PLANNING_FORMAT;
}

/**
 * Reads a planning document: checks what it is, and holds every field against the schema.
 *
 * @param value the parsed JSON
 * @throws InputError naming the first field that does not fit, or the version that can't be read
 */
export function readPlanning(value: unknown): Planning {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError(["planning"], "a planning document", value);
  }
  const { format, version } = value as Readonly<Record<string, unknown>>;
  if (format !== PLANNING_FORMAT)
    throw new InputError(["planning", "format"], `"${PLANNING_FORMAT}"`, format);
  if (version !== CURRENT_VERSION) {
    const newer = typeof version === "number" && version > CURRENT_VERSION;
    const expected = newer
      ? `a version up to ${CURRENT_VERSION} (a newer Fourfold wrote this document)`
      : `a version of the planning document, up to ${CURRENT_VERSION}`;
    throw new InputError(["planning", "version"], expected, version);
  }
  return demand(PlanningSchema, value, "planning");
}
