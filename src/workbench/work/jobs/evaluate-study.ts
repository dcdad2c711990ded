import type { Evaluation } from "../../../evaluation/document.ts";
import type { SubsetGroups } from "../../../evaluation/exploration/groups.ts";
import type { RenderedFigure } from "../../../report/render-figures.ts";
import { evaluatedStudy, type StudyAsk } from "../evaluated.ts";
import type { ReadingFound } from "../read-study-files.ts";
import type { Tell } from "../step.ts";

/** What the page shows of a study. */
export interface StudyGiven {
  readonly found: ReadingFound;
  /** `null` where the study can't be read: the issues say why. */
  readonly report: {
    readonly evaluation: Evaluation;
    readonly figures: readonly RenderedFigure[];
    readonly groups: readonly SubsetGroups[];
  } | null;
}

/** A study's issues, and its evaluation with the charts drawn. */
export async function evaluateStudy(ask: StudyAsk, tell: Tell): Promise<StudyGiven> {
  const { found, evaluated } = await evaluatedStudy(ask, tell);
  if (evaluated === null) return { found, report: null };
  const { evaluation, figures, groups } = evaluated;
  return { found, report: { evaluation, figures, groups } };
}
