import { issueLog } from "../issues.ts";
import type { InputFile } from "../model.ts";
import type { Parsed } from "../parse-kit.ts";
import { type Fault, fieldPlace, readYaml } from "../yaml-file.ts";
import { type AlgorithmFile, AlgorithmFileSchema } from "./algorithm-schema.ts";
import { checkAlgorithmFile } from "./check-algorithm-file.ts";

/** What else is to be held against a file that fits its schema and has no fault between its fields. */
export type FurtherCheck = (given: AlgorithmFile, fault: Fault) => void;

/**
 * Reads an algorithm file from its bytes. All faults come at once, each with its line and field.
 *
 * @param further finds what takes reckoning: whether the dependence stated covers every two runs of a path and
 *   is possible (see `checkDependence` of the evaluation). Asked only where nothing else is wrong
 */
export function parseAlgorithm(file: InputFile, further: FurtherCheck): Parsed<AlgorithmFile> {
  const issues = issueLog();
  const read = readYaml(file, AlgorithmFileSchema, issues);
  if (read === null) return { ok: false, issues: issues.list };
  checkAlgorithmFile(file.name, read, issues);
  if (issues.list.length === 0) {
    further(read.value, (path, expected, received) => {
      const place = fieldPlace(file.name, path, read.lineOf);
      issues.add("wrong_field", place, expected, received, "value_ignored");
    });
  }
  if (issues.list.length > 0) return { ok: false, issues: issues.list };
  return { ok: true, value: read.value, issues: issues.list };
}
