import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { AlgorithmsSchema } from "./document.ts";

/**
 * The published JSON Schema (draft-07) of the algorithms document. Checks between fields have no counterpart in
 * JSON Schema and are left to `readAlgorithms`: what it refuses, `readAlgorithms` refuses too.
 */
export function algorithmsJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(AlgorithmsSchema, {
    typeMode: "output",
    ignoreActions: ["check", "finite"],
  });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold algorithms, version 1",
    description: "Everything that follows from a file of algorithms, in full precision: algorithm.json.",
    ...rest,
  };
}
