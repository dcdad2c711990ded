import { renderToString } from "preact-render-to-string";
import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import { methodTexts } from "../../evaluation/catalogue.ts";
import { embedAlgorithms } from "../embed.ts";
import { POLICY } from "../policy.ts";
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
  return [
    "<!doctype html>",
    `<html lang="${words.language}">`,
    renderToString(<Head report={report} />),
    `<body>${renderToString(<AlgorithmPage report={report} />)}`,
    embedAlgorithms(algorithms),
    "</body></html>",
    "",
  ].join("\n");
}

function Head({ report }: { report: AlgorithmReport }) {
  const { title } = report.algorithms.file;
  const { algorithm, page } = report.words;
  const styles = `${reportStyles(algorithm.running(title), page.footer)}\n${ALGORITHM_STYLES}`;
  return (
    <head>
      <meta charSet="utf-8" />
      <meta http-equiv="Content-Security-Policy" content={POLICY} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>{`${title} · ${algorithm.kind}`}</title>
      <style dangerouslySetInnerHTML={{ __html: styles }} />
    </head>
  );
}
