import { basename } from "node:path";
import type { Algorithms } from "../evaluation/algorithm/document.ts";
import { ALGORITHM_PAGE, algorithmFiles } from "../report/algorithm/algorithm-files.ts";
import { writeFolderWhole } from "./files.ts";
import type { Progress } from "./progress.ts";

export { ALGORITHM_PAGE } from "../report/algorithm/algorithm-files.ts";

/** What a folder of a page of algorithms holds. */
export const ALGORITHM_OURS: readonly string[] = [ALGORITHM_PAGE, "algorithm.json", "tables", "figures"];

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
