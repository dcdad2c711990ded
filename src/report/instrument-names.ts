import type { Intensity, Panel } from "../evaluation/document.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "../figures/intensity-words.ts";
import type { Report } from "./context.ts";
import * as formats from "./formats.ts";
import { type Cell, cellTitle, slug, termsOf } from "./names.ts";

type Kind = "curve" | "truth" | "reading-minutes" | "calibration";

/** The name of a chart of an instrument's readings in one cell. */
export function instrumentFigure(kind: Kind, cell: Cell): string {
  return [kind, cell.analyte, cell.kit, cell.specimen, cell.reader].map(slug).join("-");
}

/** The name of the chart of a dilution panel. */
export function panelFigure({ id }: Pick<Panel, "id">): string {
  return `panel-${slug(id)}`;
}

/** A cell by its title, with the instrument where several instruments measured. */
export function instrumentTitle(report: Report, cell: Cell): string {
  const readers = new Set(report.evaluation.intensities.map(({ reader }) => reader));
  const title = cellTitle(report, cell);
  return readers.size > 1 ? `${title}, ${cell.reader}` : title;
}

/** A reading: three significant digits, whole from 100 on. */
export function readingText(value: number): string {
  return Math.abs(value) >= 100 ? formats.fixed(value, 0) : formats.stated(Number(value.toPrecision(3)));
}

/** Which cutoffs and readers stand beside the curve, with both measures, in the order of table and chart. */
export interface CutoffLine {
  readonly kind: "stated" | "chosen" | "expected" | "eye";
  readonly cutoff: number | null;
  /** The reader by eye; else empty. */
  readonly reader: string;
  readonly sensitivity: formats.Limits & { readonly count?: number; readonly total?: number };
  readonly specificity: formats.Limits & { readonly count?: number; readonly total?: number };
}

const alone = (value: number | null) => ({ value, lower: null, upper: null });

export function cutoffLines({ stated, chosen, eyes }: Intensity): CutoffLine[] {
  const lines: CutoffLine[] = [];
  if (stated !== null) lines.push({ kind: "stated", reader: "", ...stated });
  if (chosen !== null && chosen.values.cutoff.value !== null) {
    const { cutoff, sensitivity, specificity, corrected } = chosen.values;
    lines.push({ kind: "chosen", reader: "", cutoff: cutoff.value, sensitivity, specificity });
    lines.push({
      kind: "expected",
      reader: "",
      cutoff: null,
      sensitivity: alone(corrected.sensitivity),
      specificity: alone(corrected.specificity),
    });
  }
  for (const { reader, against } of eyes) {
    if (against !== null) lines.push({ kind: "eye", cutoff: null, reader, ...against.eye });
  }
  return lines;
}

/** The chart's words with the names that the measures and the people bear for this analyte. */
export function intensityChartWords(report: Report, analyte: string): IntensityChartWords {
  const terms = termsOf(report, analyte);
  const { sentence } = report.words.grammar;
  const named = (truth: "positive" | "negative") =>
    truth === "positive" ? terms.positives : terms.negatives;
  const base = INTENSITY_CHART_WORDS;
  return {
    ...base,
    sensitivityAxis: (from) => base.sensitivityAxis(from).replace("Sensitivity", sentence(terms.sensitivity)),
    specificityAxis: (from) => base.specificityAxis(from).replace("Specificity", sentence(terms.specificity)),
    group: (truth, people) => `${people} ${named(truth)}`,
    truth: (truth) => (truth === "positive" ? terms.positive : terms.negative),
    quartiles: (truth, ...rest) => base.quartiles(truth, ...rest).replace(/^[^:]*/, sentence(named(truth))),
  };
}
