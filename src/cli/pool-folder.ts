import { basename } from "node:path";
import type { Pooling } from "../evaluation/pool/document.ts";
import { POOL_PAGE, poolFiles } from "../report/pool/pool-files.ts";
import { writeFolderWhole } from "./files.ts";
import type { Progress } from "./progress.ts";

export { POOL_PAGE } from "../report/pool/pool-files.ts";

/** What a folder of a pooling's page holds. */
export const POOL_OURS: readonly string[] = [POOL_PAGE, "pooling.json", "tables", "figures"];

/** Renders and writes the folder of a page; the earlier one stays whole until the new one stands. */
export async function writePoolFolder(folder: string, pooling: Pooling, progress: Progress): Promise<void> {
  progress.step("drawing the page");
  const files = await poolFiles(pooling);
  progress.step(`writing ${basename(folder)}`);
  await writeFolderWhole(folder, files);
  progress.end();
}
