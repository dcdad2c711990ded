import { basename } from "node:path";
import type { Algorithms } from "../evaluation/algorithm/document.ts";
import { algorithmsTables } from "../evaluation/algorithm/tables.ts";
import { writeAlgorithms } from "../evaluation/algorithm/write.ts";
import { renderAlgorithmFigures, renderAlgorithms } from "../report/algorithm/render-algorithm.tsx";
import { type NewFile, writeFolderWhole } from "./files.ts";
import { filesBeside } from "./page-files.ts";
import type { Progress } from "./progress.ts";

export const ALGORITHM_PAGE = "algorithm.html";
/** What a folder of a page of algorithms holds. */
export const ALGORITHM_OURS: readonly string[] = [ALGORITHM_PAGE, "algorithm.json", "tables", "figures"];

/** Everything that the folder holds. Pure: the same document gives the same bytes. */
async function algorithmFiles(algorithms: Algorithms): Promise<NewFile[]> {
  const figures = await renderAlgorithmFigures(algorithms);
  return [
    { name: ALGORITHM_PAGE, content: await renderAlgorithms(algorithms, { figures }) },
    { name: "algorithm.json", content: writeAlgorithms(algorithms) },
    ...filesBeside(algorithmsTables(algorithms), figures),
  ];
}

/** Renders and writes the folder of a page; the earlier one stays whole until the new one stands. */
export async function writeAlgorithmFolder(
  folder: string,
  algorithms: Algorithms,
  progress: Progress,
): Promise<void> {
  progress.step("drawing the page");
  const files = await algorithmFiles(algorithms);
  progress.step(`writing ${basename(folder)}`);
  await writeFolderWhole(folder, files);
  progress.end();
}
