import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { PlanSchema } from "./plan.ts";

/**
 * JSON Schema (draft-07) of a plan file, for editors that complete and check while one writes. Checks between
 * fields are left to reading: what it accepts may still have faults; what it refuses, reading refuses too.
 */
export function planJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(PlanSchema, { typeMode: "input", ignoreActions: ["check"] });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold plan file",
    description: "What is demanded of a kit, what is expected of it, and how people will come in: plan.yaml.",
    ...rest,
  };
}
