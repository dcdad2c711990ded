import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { fixedKeys, type RecordOfWords } from "../records/json-schema.ts";
import { EvaluationSchema } from "./document.ts";

/**
 * The published JSON Schema (draft-07) of the evaluation document. Checks between fields have no
 * counterpart in JSON Schema and are left to `readEvaluation`: what this accepts may still be refused
 * there; what this refuses, `readEvaluation` refuses too.
 */
export function evaluationJsonSchema(): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(EvaluationSchema, {
    typeMode: "output",
    ignoreActions: ["check", "finite"],
    overrideSchema: ({ valibotSchema }) => fixedKeys(valibotSchema as unknown as RecordOfWords),
  });
  return {
    ...($schema === undefined ? {} : { $schema }),
    title: "Fourfold evaluation, version 1",
    description: "Everything that a report says of one study, in full precision: evaluation.json.",
    ...rest,
  };
}
