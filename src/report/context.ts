import type { MethodText } from "../evaluation/catalogue.ts";
import type { Evaluation } from "../evaluation/document.ts";
import type { Placed, SectionId } from "./contents.ts";
import type { RenderedFigure } from "./render-figures.ts";
import type { Words } from "./words/en.ts";

/** What the parts of any report work with: words, drawings, and what the catalogue says of its methods. */
export interface Shared {
  readonly words: Words;
  /** Charts with two axes, drawn beforehand, by name. */
  readonly figures: ReadonlyMap<string, RenderedFigure>;
  readonly methodTexts: readonly MethodText[];
}

/** What every part of the evaluation report works with. */
export interface Report extends Shared {
  readonly evaluation: Evaluation;
  /** The sections that this evaluation fills, in order, numbered. */
  readonly contents: readonly Placed[];
}

/** What a section's component takes. */
export interface SectionProps {
  readonly report: Report;
}

/** Number and title of a section that is on the page, or `null`. */
export function placeOf(report: Report, id: SectionId): Placed | null {
  return report.contents.find((placed) => placed.id === id) ?? null;
}
