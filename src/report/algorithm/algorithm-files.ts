import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import { algorithmsTables } from "../../evaluation/algorithm/tables.ts";
import { writeAlgorithms } from "../../evaluation/algorithm/write.ts";
import { filesBeside, type PageFile } from "../files-beside.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { renderAlgorithmFigures, renderAlgorithms } from "./render-algorithm.tsx";

export const ALGORITHM_PAGE = "algorithm.html";

/** Everything that the folder of a page of algorithms holds. The same document gives the same bytes. */
export async function algorithmFiles(
  algorithms: Algorithms,
  figures?: readonly RenderedFigure[],
): Promise<PageFile[]> {
  const drawn = figures ?? (await renderAlgorithmFigures(algorithms));
  return [
    { name: ALGORITHM_PAGE, content: await renderAlgorithms(algorithms, { figures: drawn }) },
    { name: "algorithm.json", content: writeAlgorithms(algorithms) },
    ...filesBeside(algorithmsTables(algorithms), drawn),
  ];
}
