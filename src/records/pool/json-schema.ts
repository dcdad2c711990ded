import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { PoolFileSchema } from "./pool-schema.ts";

/**
 * JSON Schema (draft-07) of a pooling file, for editors that complete and check while one writes. Checks between
 * fields are left to reading: what it accepts may still have faults; what it refuses, reading refuses too.
 */
export function poolJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(PoolFileSchema, { typeMode: "input", ignoreActions: ["check"] });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold pooling file",
    description: "Which table of counts is pooled, and what is asked of the result: pool.yaml.",
    ...rest,
  };
}
