import { stat } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import type { Pooling } from "../evaluation/pool/document.ts";
import type { RowIssue } from "../records/model.ts";
import { POOL_FILE } from "../records/pool/pool-file.ts";
import { isMissing } from "./files.ts";
import { failed, type Io, wrongUsage } from "./io.ts";
import type { Progress } from "./progress.ts";
import { inOneLine } from "./read-folder.ts";
import { readInside, sha256Of } from "./study-folder.ts";

/** Where a pooling file stands: its folder, and its name in it. */
export interface PoolPlace {
  readonly folder: string;
  readonly name: string;
}

/** A pooling file's place from what the user typed: the file, or the folder that holds a pool.yaml. */
export async function findPool(io: Io, typed: string): Promise<PoolPlace> {
  const path = resolve(io.folder, typed);
  try {
    if ((await stat(path)).isDirectory()) return { folder: path, name: POOL_FILE };
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw wrongUsage(`no such file: ${typed}`);
  }
  return { folder: dirname(path), name: basename(path) };
}

/**
 * Reads a pooling file and the table that it names, and evaluates them.
 * @throws Refusal naming the faults of a file that can't be understood, or of a table without a study to use
 */
export async function evaluatePoolFile({ folder, name }: PoolPlace, progress: Progress): Promise<Pooling> {
  const { parsePool, readPool } = await import("../records/pool/parse-pool.ts");
  const file = await readInside(folder, name);
  if (file === null) throw failed(`no ${name} in ${folder}`);
  const parsed = parsePool(file);
  if (!parsed.ok) throw failed(unreadable(parsed.issues));
  const table = await readInside(folder, parsed.value.table);
  const read = readPool(parsed.value, table);
  if (!read.ok || table === null) throw failed(unreadable(read.issues));
  const { evaluatePooling } = await import("../evaluation/pool/evaluate-pooling.ts");
  progress.step("pooling");
  const inputs = [file, table].map(({ name: input, bytes }) => ({
    name: input,
    bytes: bytes.length,
    sha256: sha256Of(bytes),
  }));
  try {
    return evaluatePooling(read.value, inputs);
  } finally {
    progress.end();
  }
}

const SHOWN = 20;

function unreadable(issues: readonly RowIssue[]): string {
  const lines = issues.slice(0, SHOWN).map((issue) => `  ${issue.file}: ${inOneLine(issue)}`);
  const more = issues.length - SHOWN;
  if (more > 0) lines.push(`  … and ${more} more`);
  return `the studies can't be read\n${lines.join("\n")}`;
}
