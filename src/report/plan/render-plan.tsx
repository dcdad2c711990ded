import { renderToString } from "preact-render-to-string";
import { methodTexts } from "../../evaluation/catalogue.ts";
import type { Planning } from "../../evaluation/plan/document.ts";
import { embedPlanning } from "../embed.ts";
import { POLICY } from "../policy.ts";
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
  return [
    "<!doctype html>",
    `<html lang="${words.language}">`,
    renderToString(<Head report={report} />),
    `<body>${renderToString(<PlanPage report={report} />)}`,
    embedPlanning(planning),
    "</body></html>",
    "",
  ].join("\n");
}

function Head({ report }: { report: PlanReport }) {
  const { title } = report.planning.plan;
  const { plan, page } = report.words;
  const styles = `${reportStyles(plan.running(title), page.footer)}\n${PLAN_STYLES}`;
  return (
    <head>
      <meta charSet="utf-8" />
      <meta http-equiv="Content-Security-Policy" content={POLICY} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>{`${title} · ${plan.kind}`}</title>
      <style dangerouslySetInnerHTML={{ __html: styles }} />
    </head>
  );
}
