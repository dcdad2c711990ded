import { basename } from "node:path";
import type { Pooling } from "../evaluation/pool/document.ts";
import { poolingTables } from "../evaluation/pool/tables.ts";
import { writePooling } from "../evaluation/pool/write.ts";
import { renderPool, renderPoolFigures } from "../report/pool/render-pool.tsx";
import { type NewFile, writeFolderWhole } from "./files.ts";
import { filesBeside } from "./page-files.ts";
import type { Progress } from "./progress.ts";

export const POOL_PAGE = "pool.html";
/** What a folder of a pooling's page holds. */
export const POOL_OURS: readonly string[] = [POOL_PAGE, "pooling.json", "tables", "figures"];

/** Everything that the folder holds. Pure: the same document gives the same bytes. */
async function poolFiles(pooling: Pooling): Promise<NewFile[]> {
  const figures = await renderPoolFigures(pooling);
  return [
    { name: POOL_PAGE, content: await renderPool(pooling, { figures }) },
    { name: "pooling.json", content: writePooling(pooling) },
    ...filesBeside(poolingTables(pooling), figures),
  ];
}

/** Renders and writes the folder of a page; the earlier one stays whole until the new one stands. */
export async function writePoolFolder(folder: string, pooling: Pooling, progress: Progress): Promise<void> {
  progress.step("drawing the page");
  const files = await poolFiles(pooling);
  progress.step(`writing ${basename(folder)}`);
  await writeFolderWhole(folder, files);
  progress.end();
}
