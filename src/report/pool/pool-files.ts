import type { Pooling } from "../../evaluation/pool/document.ts";
import { poolingTables } from "../../evaluation/pool/tables.ts";
import { writePooling } from "../../evaluation/pool/write.ts";
import { filesBeside, type PageFile } from "../files-beside.ts";
import { renderPool, renderPoolFigures } from "./render-pool.tsx";

export const POOL_PAGE = "pool.html";

/** Everything that the folder of a pooling's page holds. Pure: the same document gives the same bytes. */
export async function poolFiles(pooling: Pooling): Promise<PageFile[]> {
  const figures = await renderPoolFigures(pooling);
  return [
    { name: POOL_PAGE, content: await renderPool(pooling, { figures }) },
    { name: "pooling.json", content: writePooling(pooling) },
    ...filesBeside(poolingTables(pooling), figures),
  ];
}
