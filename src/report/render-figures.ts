import type { Evaluation, ReadingTime } from "../evaluation/document.ts";
import { minuteAccuracy } from "../figures/minute-accuracy.ts";
import { predictiveCurve } from "../figures/predictive-curve.ts";
import { readingTimeHistogram } from "../figures/reading-time.ts";
import { renderSpecification } from "../figures/render.ts";
import type { Specification } from "../figures/specification.ts";
import type { Report } from "./context.ts";
import { type Cell, isComparator, mainCell, slug } from "./names.ts";
import { instrumentFigures } from "./render-instrument.ts";
import { pooledFigures } from "./render-measured.ts";
import { referenceFigures } from "./render-reference.ts";
import { en, type Words } from "./words/en.ts";

/** A chart with two axes: its specification, fit to be restyled elsewhere, and its drawing. */
export interface RenderedFigure {
  /** Unique in the report; letters, digits and dashes, so that it can name a file. */
  readonly name: string;
  readonly spec: Specification;
  readonly svg: string;
}

/** The name of the chart of one kind for one cell. */
export function figureName(kind: "predictive" | "reading-time" | "minutes", cell: Cell): string {
  return [kind, ...[cell.analyte, cell.kit, cell.specimen, cell.reader].map(slug)].join("-");
}

/**
 * Draws the charts of an evaluation, in the order in which the report shows them. The command line
 * writes the specifications to files and hands the drawings to `renderReport`.
 */
export async function renderFigures(evaluation: Evaluation, words: Words = en): Promise<RenderedFigure[]> {
  const figures: RenderedFigure[] = [];
  for (const { name, spec } of specificationsOf(evaluation, words)) {
    figures.push({ name, spec, svg: await renderSpecification(spec) });
  }
  return figures;
}

type Named = Pick<RenderedFigure, "name" | "spec">;

function specificationsOf(evaluation: Evaluation, words: Words): Named[] {
  const report: Report = { evaluation, words, figures: new Map(), methodTexts: [], contents: [] };
  return [
    ...referenceFigures(report),
    ...pooledFigures(report),
    ...curveCells(evaluation),
    ...timeCells(evaluation),
    ...minuteCells(evaluation),
    ...instrumentFigures(report),
  ];
}

/** One curve for each analyte that has a reference standard: its primary specimen and reader. */
function curveCells({ predictive, study }: Evaluation): Named[] {
  return study.analytes.flatMap((analyte): Named[] => {
    const found = mainCell(predictive, analyte.id);
    if (found === undefined || found.curve.length === 0 || isComparator(analyte)) return [];
    const name = figureName("predictive", found);
    const { curve, programmes } = found;
    const data = { name, analyte: analyte.title, level: study.interval.level, curve, programmes };
    return [{ name, spec: predictiveCurve(data) }];
  });
}

function timeCells({ readingTime, study }: Evaluation): Named[] {
  const titled = (id: string) => study.analytes.find((analyte) => analyte.id === id)?.title ?? id;
  return timeGroups(readingTime).map(([first, ...others]) => {
    const name = figureName("reading-time", first);
    const analyte = [first, ...others].map((one) => titled(one.analyte)).join(", ");
    const { window, people, histogram } = first;
    return { name, spec: readingTimeHistogram({ name, analyte, window, people, histogram }) };
  });
}

/** One chart for each cell: the measures of analytes differ even where their times do not. */
function minuteCells({ readingTime, study }: Evaluation): Named[] {
  return readingTime
    .filter(({ byMinutes }) => byMinutes.length > 0)
    .map((times) => {
      const name = figureName("minutes", times);
      const analyte = study.analytes.find(({ id }) => id === times.analyte);
      const agreement = analyte !== undefined && isComparator(analyte);
      const { window, byMinutes: bands } = times;
      const title = analyte?.title ?? times.analyte;
      const level = study.interval.level;
      return { name, spec: minuteAccuracy({ name, analyte: title, level, window, bands, agreement }) };
    });
}

export type TimeGroup = readonly [ReadingTime, ...ReadingTime[]];

/** Analytes read on the same devices have the same times: their histogram is drawn once. */
export function timeGroups(times: readonly ReadingTime[]): TimeGroup[] {
  const same = (one: ReadingTime, other: ReadingTime) =>
    one.kit === other.kit &&
    one.specimen === other.specimen &&
    one.reader === other.reader &&
    JSON.stringify([one.people, one.histogram]) === JSON.stringify([other.people, other.histogram]);
  return times
    .filter((one, place) => times.findIndex((other) => same(one, other)) === place)
    .map((one) => [one, ...times.filter((other) => other !== one && same(one, other))]);
}
