import { demand } from "../core/check.ts";
import { type Evaluation, EvaluationSchema } from "./document.ts";

/**
 * The evaluation document as JSON text. Keys stand in the order of the schema, numbers in full
 * precision, one field a line: the same evaluation always gives the same bytes, and two evaluations
 * can be compared line by line.
 *
 * @throws InputError when the value is not a valid evaluation document
 */
export function writeEvaluation(evaluation: Evaluation): string {
  return `${JSON.stringify(demand(EvaluationSchema, evaluation, "evaluation"), null, 1)}\n`;
}
