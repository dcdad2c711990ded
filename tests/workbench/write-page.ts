import { spawnSync } from "node:child_process";
import { resolve } from "node:path";

const ROOT = resolve(import.meta.dirname, "../..");

/** Writes the workbench's page to a file, as `npm run build` does. */
export function writePage(file: string): void {
  const words = ["--import", "tsx", "src/workbench/build/write.ts", file];
  const env = { ...process.env, TSX_TSCONFIG_PATH: "src/workbench/tsconfig.json" };
  const ran = spawnSync(process.execPath, words, { cwd: ROOT, encoding: "utf8", env });
  if (ran.status !== 0) throw new Error(`the page could not be built\n${ran.stderr}`);
}
