import * as formats from "../formats.ts";
import type { AlgorithmReport } from "./context.ts";

/** How often the uncertain numbers were drawn, analyte by analyte: fewer than asked where each takes long. */
export function drawsMade({ algorithms }: AlgorithmReport): number[] {
  return algorithms.uncertainty.map(({ drawn }) => drawn.values.draws ?? algorithms.file.draws);
}

/** The same in words; what was asked where nothing was drawn. */
export function drawsText(report: AlgorithmReport): string {
  const made = [...new Set(drawsMade(report))];
  const shown = made.length > 0 ? made : [report.algorithms.file.draws];
  return report.words.grammar.listed(shown.map(formats.count), "or");
}
