import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { parse } from "csv-parse/sync";
import { expect } from "vitest";
import type { Truth } from "../../src/demo/truth.ts";
import type { StudyRecords } from "../../src/records/model.ts";
import { readStudy } from "../../src/records/read-study.ts";

export const DATA = resolve(import.meta.dirname, "../../data");

/** A committed study folder as the program reads it; the test fails where it can't. */
export function recordsOf(folder: string): StudyRecords {
  const files = readdirSync(join(DATA, folder)).map((name) => ({
    name,
    bytes: new Uint8Array(readFileSync(join(DATA, folder, name))),
  }));
  const read = readStudy(files);
  if (!read.ok) expect.fail(`${folder}: ${JSON.stringify(read.issues.slice(0, 5))}`);
  return read.records;
}

/** The realised truth of the demo study; another test holds the file against its generator. */
export function committedTruth(): Truth {
  return JSON.parse(readFileSync(join(DATA, "demo", "truth.json"), "utf8")) as Truth;
}

const parsed = new Map<string, Record<string, string>[]>();

/** A committed table as plain rows, read by an outside parser. */
export function rowsOf(folder: string, name: string): readonly Readonly<Record<string, string>>[] {
  const path = join(DATA, folder, name);
  const rows = parsed.get(path) ?? (parse(readFileSync(path), { columns: true }) as Record<string, string>[]);
  parsed.set(path, rows);
  return rows;
}
