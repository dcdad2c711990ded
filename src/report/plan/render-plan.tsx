import { methodTexts } from "../../evaluation/catalogue.ts";
import type { Planning } from "../../evaluation/plan/document.ts";
import { embedPlanning } from "../embed.ts";
import { htmlPage } from "../html-page.tsx";
import type { RenderedFigure } from "../render-figures.ts";
import { PLAN_STYLES } from "../styles/plan.ts";
import { reportStyles } from "../styles.ts";
import { en, type Words } from "../words/en.ts";
import { planContentsOf } from "./contents.ts";
import type { PlanReport } from "./context.ts";
import { PlanPage } from "./page.tsx";
import { renderPlanFigures } from "./render-plan-figures.ts";

export { readEmbeddedPlanning } from "../embed.ts";
export { renderPlanFigures } from "./render-plan-figures.ts";

export interface PlanOptions {
  /** Drawings made by `renderPlanFigures` for the same planning document; drawn here when absent. */
  readonly figures?: readonly RenderedFigure[];
  readonly words?: Words;
}

/**
 * A study plan as one HTML file, the sibling of the evaluation report: no script runs in it and nothing is
 * fetched; the planning document is embedded and can be read back with `readEmbeddedPlanning`. Same
 * document, same bytes.
 */
export async function renderPlan(planning: Planning, options: PlanOptions = {}): Promise<string> {
  const words = options.words ?? en;
  const figures = options.figures ?? (await renderPlanFigures(planning));
  const report: PlanReport = {
    planning,
    words,
    figures: new Map(figures.map((figure) => [figure.name, figure])),
    methodTexts,
    contents: planContentsOf(planning, words),
  };
  const { title } = planning.plan;
  return htmlPage({
    language: words.language,
    title: `${title} · ${words.plan.kind}`,
    styles: `${reportStyles(words.plan.running(title), words.page.footer)}\n${PLAN_STYLES}`,
    body: <PlanPage report={report} />,
    embedded: embedPlanning(planning),
  });
}
