import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { AlgorithmFileSchema } from "./algorithm-schema.ts";

/**
 * JSON Schema (draft-07) of an algorithm file, for editors that complete and check while one writes. Checks
 * between fields are left to reading: what it accepts may still have faults; what it refuses, reading refuses too.
 */
export function algorithmJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(AlgorithmFileSchema, {
    typeMode: "input",
    ignoreActions: ["check"],
  });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold algorithm file",
    description: "Kits, their dependence, channels, and what is done after each result: algorithm.yaml.",
    ...rest,
  };
}
