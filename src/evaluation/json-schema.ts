import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import { EvaluationSchema } from "./document.ts";

/**
 * The published JSON Schema of the evaluation document. Checks that JSON Schema can't state (a range
 * whose ends must be in order, for one) are left to `readEvaluation`.
 */
export function evaluationJsonSchema(): JsonSchema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Fourfold evaluation, version 1",
    ...toJsonSchema(EvaluationSchema, { errorMode: "ignore", typeMode: "output", target: "draft-2020-12" }),
  };
}
