import { mkdtempSync } from "node:fs";
import { mkdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll } from "vitest";
import type { ExitCode, Io } from "../../src/cli/io.ts";
import { runCommandLine } from "../../src/cli/run.ts";

export const ROOT = resolve(import.meta.dirname, "../..");

export interface Ran {
  readonly code: ExitCode;
  readonly out: string;
  readonly err: string;
}

/** Runs one command line in this process, as `main.ts` would, and gives back what it wrote. */
export async function run(words: readonly string[], folder: string, input = ""): Promise<Ran> {
  let out = "";
  let err = "";
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    colour: false,
    folder,
    home: ROOT,
    input: async () => new TextEncoder().encode(input),
    now: () => performance.now(),
  };
  const code = await runCommandLine(words, io);
  return { code, out, err };
}

/** A folder of this test file's own, gone when its tests have run. */
export function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "fourfold-test-"));
  afterAll(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

export async function fill(folder: string, files: Readonly<Record<string, string>>): Promise<void> {
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), content);
  }
}
