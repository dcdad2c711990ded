import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { PoolingSchema } from "./document.ts";

/**
 * The published JSON Schema (draft-07) of the pooling document. Checks between fields have no counterpart in JSON
 * Schema and are left to `readPooling`: what it refuses, `readPooling` refuses too.
 */
export function poolingJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(PoolingSchema, {
    typeMode: "output",
    ignoreActions: ["check", "finite"],
  });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold pooling, version 1",
    description: "Everything that follows from a table of studies, in full precision: pooling.json.",
    ...rest,
  };
}
