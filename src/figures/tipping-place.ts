import { LIGHT_INKS } from "./inks.ts";
import { statedPercent } from "./numbers.ts";
import { REFERENCE_CHART_WORDS, type ReferenceChartWords } from "./reference-words.ts";
import type { Layer } from "./specification.ts";
import type { Box, Verdict } from "./verdict-grid.ts";

export interface Range {
  readonly from: number;
  readonly to: number;
}

export interface TippingMapData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** What is judged, in words. */
  readonly criterion: string;
  /** Of the reference, ascending. */
  readonly sensitivities: readonly number[];
  readonly specificities: readonly number[];
  /** One for each pair, the sensitivities slowest. */
  readonly verdicts: readonly Verdict[];
  readonly believed: { readonly sensitivity: number; readonly specificity: number };
  readonly ranges: { readonly sensitivity: Range; readonly specificity: Range };
  readonly words?: ReferenceChartWords;
}

export const WIDTH = 410;
export const HEIGHT = 250;
const { muted, pale, paper, wash } = LIGHT_INKS;
/** A pixel of the plot, outside the scales. */
const pixels = (field: string) => ({ field, type: "quantitative" as const, scale: null, axis: null });
export const percent = (share: number) => `${statedPercent(share)}\u202f%`;

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly box: Box;
}

/** Pixels of what is stated. */
export function placeOf({ believed, ranges, sensitivities, specificities }: TippingMapData): Place {
  const across = scaleOf(specificities, WIDTH);
  const up = scaleOf(sensitivities, HEIGHT);
  return {
    x: across(believed.specificity),
    y: HEIGHT - up(believed.sensitivity),
    box: {
      x: across(ranges.specificity.from),
      x2: across(ranges.specificity.to),
      y: HEIGHT - up(ranges.sensitivity.to),
      y2: HEIGHT - up(ranges.sensitivity.from),
    },
  };
}

function scaleOf(values: readonly number[], length: number): (value: number) => number {
  const [first, last] = [values[0] ?? 0, values.at(-1) ?? 1];
  return (value) => Math.min(length, Math.max(0, ((value - first) / (last - first || 1)) * length));
}

/** The axis of the reference's sensitivity (upwards) or specificity (to the right). */
export function axisOf(data: TippingMapData, measure: "sensitivity" | "specificity") {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const values = measure === "sensitivity" ? data.sensitivities : data.specificities;
  const title = measure === "sensitivity" ? null : words.referenceSpecificity;
  return {
    field: measure,
    type: "quantitative" as const,
    scale: { domain: [values[0] ?? 0, values.at(-1) ?? 1], nice: false, zero: false },
    axis: {
      title,
      titleAnchor: "start" as const,
      titlePadding: 10,
      tickCount: 5,
      grid: false,
      ticks: true,
      tickRound: false,
      domain: true,
      domainColor: muted,
      labelExpr: "format(datum.value * 100, '.6~r')",
    },
  };
}

/** The ground of each verdict's area. */
export const FILLS: Readonly<Record<Verdict, string>> = {
  met: pale,
  undecided: paper,
  not_met: paper,
  not_estimable: wash,
};

interface Stroke {
  readonly color: string;
  readonly strokeWidth: number;
  readonly strokeDash?: number[];
  readonly strokeCap?: "round" | "square";
}

/** Straight lines between pixels. */
export function lines(values: readonly Box[], mark: Stroke): Layer {
  return {
    data: { values: [...values] },
    mark: { ...mark, type: "rule" },
    encoding: { x: pixels("x"), x2: { field: "x2" }, y: pixels("y"), y2: { field: "y2" } },
  };
}
