import { demand } from "../../core/check.ts";
import { type Planning, PlanningSchema } from "./document.ts";

/**
 * The planning document as JSON text. Keys stand in the order of the schema, numbers in full precision, one field
 * a line: the same planning always gives the same bytes.
 *
 * @throws InputError when the value is not a valid planning document
 */
export function writePlanning(planning: Planning): string {
  return `${JSON.stringify(demand(PlanningSchema, planning, "planning"), null, 1)}\n`;
}
