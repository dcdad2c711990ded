import { methodTexts } from "../evaluation/catalogue.ts";
import type { Evaluation } from "../evaluation/document.ts";
import { contentsOf } from "./contents.ts";
import type { Report } from "./context.ts";
import { embedEvaluation } from "./embed.ts";
import { htmlPage } from "./html-page.tsx";
import { Page } from "./page.tsx";
import { type RenderedFigure, renderFigures } from "./render-figures.ts";
import { runningHead } from "./running-head.ts";
import { POOL_STYLES } from "./styles/pool.ts";
import { reportStyles } from "./styles.ts";
import { en, type Words } from "./words/en.ts";

export { readEmbeddedEvaluation } from "./embed.ts";
export { renderFigures } from "./render-figures.ts";

export interface ReportOptions {
  /** Drawings made by `renderFigures` for the same evaluation; drawn here when absent. */
  readonly figures?: readonly RenderedFigure[];
  readonly words?: Words;
}

/**
 * The report of an evaluation as one HTML file: no script runs in it and nothing is fetched; the
 * evaluation is embedded and can be read back with `readEmbeddedEvaluation`. Same evaluation, same
 * bytes: no time stamp, no path.
 */
export async function renderReport(evaluation: Evaluation, options: ReportOptions = {}): Promise<string> {
  const words = options.words ?? en;
  const figures = options.figures ?? (await renderFigures(evaluation, words));
  const report: Report = {
    evaluation,
    words,
    figures: new Map(figures.map((figure) => [figure.name, figure])),
    methodTexts,
    contents: contentsOf(evaluation, words),
  };
  return htmlPage({
    language: words.language,
    title: `${evaluation.study.title} · ${words.page.kind}`,
    styles: `${reportStyles(runningHead(evaluation, words), words.page.footer)}\n${POOL_STYLES}`,
    body: <Page report={report} />,
    embedded: embedEvaluation(evaluation),
  });
}
