import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { PlanningSchema } from "./document.ts";

/**
 * The published JSON Schema (draft-07) of the planning document. Checks between fields have no counterpart in
 * JSON Schema and are left to `readPlanning`: what it refuses, `readPlanning` refuses too.
 */
export function planningJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(PlanningSchema, {
    typeMode: "output",
    ignoreActions: ["check", "finite"],
  });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold planning, version 1",
    description: "Everything that follows from a plan, in full precision: planning.json.",
    ...rest,
  };
}
