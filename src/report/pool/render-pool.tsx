import { methodTexts } from "../../evaluation/catalogue.ts";
import type { Pooling } from "../../evaluation/pool/document.ts";
import { embedPooling } from "../embed.ts";
import { htmlPage } from "../html-page.tsx";
import type { RenderedFigure } from "../render-figures.ts";
import { ALGORITHM_STYLES } from "../styles/algorithm.ts";
import { POOL_STYLES } from "../styles/pool.ts";
import { reportStyles } from "../styles.ts";
import { en, type Words } from "../words/en.ts";
import { poolContentsOf } from "./contents.ts";
import type { PoolReport } from "./context.ts";
import { PoolPage } from "./page.tsx";
import { renderPoolFigures } from "./render-pool-figures.ts";

export { readEmbeddedPooling } from "../embed.ts";
export { renderPoolFigures } from "./render-pool-figures.ts";

export interface PoolOptions {
  /** Drawings made by `renderPoolFigures` for the same document; drawn here when absent. */
  readonly figures?: readonly RenderedFigure[];
  readonly words?: Words;
}

/**
 * Pooled studies as one HTML page, the sibling of the evaluation report: no script runs in it and nothing is fetched;
 * the pooling document is embedded and can be read back with `readEmbeddedPooling`. Same document, same bytes.
 */
export async function renderPool(pooling: Pooling, options: PoolOptions = {}): Promise<string> {
  const words = options.words ?? en;
  const figures = options.figures ?? (await renderPoolFigures(pooling, words));
  const report: PoolReport = {
    pooling,
    words,
    figures: new Map(figures.map((figure) => [figure.name, figure])),
    methodTexts,
    contents: poolContentsOf(pooling, words),
  };
  const { title } = pooling.file;
  return htmlPage({
    language: words.language,
    title: `${title} · ${words.pool.kind}`,
    styles: `${reportStyles(words.pool.running(title), words.page.footer)}\n${ALGORITHM_STYLES}\n${POOL_STYLES}`,
    body: <PoolPage report={report} />,
    embedded: embedPooling(pooling),
  });
}
