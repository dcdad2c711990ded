import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import { methodTexts } from "../../evaluation/catalogue.ts";
import { embedAlgorithms } from "../embed.ts";
import { htmlPage } from "../html-page.tsx";
import type { RenderedFigure } from "../render-figures.ts";
import { ALGORITHM_STYLES } from "../styles/algorithm.ts";
import { reportStyles } from "../styles.ts";
import { en, type Words } from "../words/en.ts";
import { algorithmContentsOf } from "./contents.ts";
import type { AlgorithmReport } from "./context.ts";
import { AlgorithmPage } from "./page.tsx";
import { renderAlgorithmFigures } from "./render-algorithm-figures.ts";

export { readEmbeddedAlgorithms } from "../embed.ts";
export { renderAlgorithmFigures } from "./render-algorithm-figures.ts";

export interface AlgorithmOptions {
  /** Drawings made by `renderAlgorithmFigures` for the same document; drawn here when absent. */
  readonly figures?: readonly RenderedFigure[];
  readonly words?: Words;
}

/**
 * A file of testing algorithms as one HTML page, the sibling of the evaluation report and of the study plan: no
 * script runs in it and nothing is fetched; the algorithms document is embedded and can be read back with
 * `readEmbeddedAlgorithms`. Same document, same bytes.
 */
export async function renderAlgorithms(
  algorithms: Algorithms,
  options: AlgorithmOptions = {},
): Promise<string> {
  const words = options.words ?? en;
  const figures = options.figures ?? (await renderAlgorithmFigures(algorithms, words));
  const report: AlgorithmReport = {
    algorithms,
    words,
    figures: new Map(figures.map((figure) => [figure.name, figure])),
    methodTexts,
    contents: algorithmContentsOf(algorithms, words),
  };
  const { title } = algorithms.file;
  return htmlPage({
    language: words.language,
    title: `${title} · ${words.algorithm.kind}`,
    styles: `${reportStyles(words.algorithm.running(title), words.page.footer)}\n${ALGORITHM_STYLES}`,
    body: <AlgorithmPage report={report} />,
    embedded: embedAlgorithms(algorithms),
  });
}
