import { stat } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import { InputError } from "../core/input-error.ts";
import type { Algorithms } from "../evaluation/algorithm/document.ts";
import { ALGORITHM_FILE } from "../records/algorithm/algorithm-file.ts";
import type { RowIssue } from "../records/model.ts";
import { isMissing } from "./files.ts";
import { failed, type Io, wrongUsage } from "./io.ts";
import type { Progress } from "./progress.ts";
import { inOneLine } from "./read-folder.ts";
import { readInside, sha256Of } from "./study-folder.ts";

/** Where an algorithm file stands: its folder, and its name in it. */
export interface AlgorithmPlace {
  readonly folder: string;
  readonly name: string;
}

/** An algorithm file's place from what the user typed: the file, or the folder that holds an algorithm.yaml. */
export async function findAlgorithm(io: Io, typed: string): Promise<AlgorithmPlace> {
  const path = resolve(io.folder, typed);
  try {
    if ((await stat(path)).isDirectory()) return { folder: path, name: ALGORITHM_FILE };
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw wrongUsage(`no such file: ${typed}`);
  }
  return { folder: dirname(path), name: basename(path) };
}

/**
 * Reads an algorithm file and evaluates it.
 * @throws Refusal naming the faults of a file that can't be understood, or whose algorithms can't be followed
 */
export async function evaluateAlgorithmFile(
  { folder, name }: AlgorithmPlace,
  progress: Progress,
): Promise<Algorithms> {
  const { parseAlgorithm } = await import("../records/algorithm/parse-algorithm.ts");
  const { checkDependence } = await import("../evaluation/algorithm/check-dependence.ts");
  const file = await readInside(folder, name);
  if (file === null) throw failed(`no ${name} in ${folder}`);
  const read = parseAlgorithm(file, checkDependence);
  if (!read.ok) throw failed(unreadable(read.issues));
  const { evaluateAlgorithms } = await import("../evaluation/algorithm/evaluate-algorithms.ts");
  progress.step("following the algorithms");
  const input = { name, bytes: file.bytes.length, sha256: sha256Of(file.bytes) };
  try {
    return evaluateAlgorithms(read.value, [input]);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw failed(`the algorithms can't be followed: ${error.message}`);
  } finally {
    progress.end();
  }
}

const SHOWN = 20;

function unreadable(issues: readonly RowIssue[]): string {
  const lines = issues.slice(0, SHOWN).map((issue) => `  ${issue.file}: ${inOneLine(issue)}`);
  const more = issues.length - SHOWN;
  if (more > 0) lines.push(`  … and ${more} more`);
  return `the algorithm file can't be read\n${lines.join("\n")}`;
}
