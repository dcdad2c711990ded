import type { ReadingTime } from "../evaluation/document.ts";
import { LIGHT_INKS } from "./inks.ts";
import { dotOf, minuteLabels } from "./minute-labels.ts";
import { estimatedRange, statedPercent, statedRange } from "./numbers.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { CHART_WORDS, type ChartWords } from "./words.ts";

type Band = ReadingTime["byMinutes"][number];

export interface MinuteAccuracyData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The analyte as a reader knows it. */
  readonly analyte: string;
  /** Level of the intervals. */
  readonly level: number;
  readonly window: ReadingTime["window"];
  readonly bands: readonly Band[];
  /** The comparison test is no reference standard: the two measures bear other names. */
  readonly agreement: boolean;
  readonly words?: ChartWords;
}

interface Point {
  readonly measure: "positive" | "negative";
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

const WIDTH = 640;
const HEIGHT = 210;
/** Half the distance between the two dots of a band, pixels. */
const APART = 5;
const { muted, wash, deep } = LIGHT_INKS;

/**
 * Both measures by the minute at which results were read: one dot and its interval for each band of
 * minutes, sensitivity filled, specificity hollow; the reading window shaded. Bands without people of a
 * status have no dot of that measure. The scale begins where the intervals do, and says so.
 */
export function minuteAccuracy(data: MinuteAccuracyData): Specification {
  const words = data.words ?? CHART_WORDS;
  const last = Math.max(data.window.to, 1, ...data.bands.map(({ to }) => to)) * 1.02;
  const points = pointsOf(data.bands, last);
  const lowest = lowestShown(points);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 46, right: 30, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.minutesTitle(data.analyte, data.agreement),
    description: inWords(data, words),
  };
  return layered(wording, frame, [
    shade(data, last),
    intervals(points, last, lowest, words),
    spans(points),
    dots(points, "positive"),
    dots(points, "negative"),
    ...minuteLabels({ ...data, last, lowest, width: WIDTH }, words),
  ]);
}

function pointsOf(bands: readonly Band[], last: number): Point[] {
  const apart = (APART * last) / WIDTH;
  return bands.flatMap(({ from, to, sensitivity, specificity }) =>
    (["positive", "negative"] as const).flatMap((measure) => {
      const { value, lower, upper } = measure === "positive" ? sensitivity : specificity;
      if (value === null) return [];
      const at = (from + to) / 2 + (measure === "positive" ? -apart : apart);
      return [{ measure, from, to, at, value, lower: lower ?? value, upper: upper ?? value }];
    }),
  );
}

/** The lower end of the scale: a tenth below the intervals, but never so low that the top is crushed. */
function lowestShown(points: readonly Point[]): number {
  const lowest = Math.min(1, ...points.map(({ lower }) => lower));
  return Math.max(0, Math.floor((lowest - 0.001) * 10) / 10);
}

function shade({ window }: MinuteAccuracyData, last: number): Layer {
  return {
    data: { values: [{ from: window.from, to: Math.min(window.to, last) }] },
    mark: { type: "rect", color: wash, stroke: muted, strokeDash: [3, 2], strokeWidth: 1 },
    encoding: {
      x: { field: "from", type: "quantitative" },
      x2: { field: "to" },
      y: { value: -18 },
      y2: { value: HEIGHT },
    },
  };
}

function intervals(points: readonly Point[], last: number, lowest: number, words: ChartWords): Layer {
  return {
    data: { values: [...points] },
    mark: { type: "rule", strokeWidth: 2 },
    encoding: {
      x: {
        field: "at",
        type: "quantitative",
        scale: { domain: [0, last], nice: false },
        axis: {
          title: words.minutes,
          titleAnchor: "start",
          titlePadding: 10,
          tickCount: 12,
          tickMinStep: 1,
          tickRound: false,
        },
      },
      y: {
        field: "lower",
        type: "quantitative",
        scale: { domain: [lowest, 1], nice: false },
        axis: { title: null, tickCount: 5, labelExpr: "format(datum.value * 100, '.4~g')" },
      },
      y2: { field: "upper" },
      color: { condition: { test: "datum.measure === 'positive'", value: deep }, value: muted },
    },
  };
}

/** The minutes that a band spans, as a thin line through its dot. */
function spans(points: readonly Point[]): Layer {
  return {
    data: { values: [...points] },
    mark: { type: "rule", strokeWidth: 1, opacity: 0.55 },
    encoding: {
      x: { field: "from", type: "quantitative" },
      x2: { field: "to" },
      y: { field: "value", type: "quantitative" },
      color: { condition: { test: "datum.measure === 'positive'", value: deep }, value: muted },
    },
  };
}

function dots(points: readonly Point[], measure: Point["measure"]): Layer {
  return {
    data: { values: points.filter((point) => point.measure === measure) },
    mark: dotOf(measure === "positive"),
    encoding: {
      x: { field: "at", type: "quantitative" },
      y: { field: "value", type: "quantitative" },
    },
  };
}

function inWords({ bands, level, window, agreement }: MinuteAccuracyData, words: ChartWords): string {
  const named = (name: string, of: Band["sensitivity"]) =>
    `${name} ${estimatedRange(of, words.nothingMeasured)}`;
  return [
    words.minutesDescription(agreement),
    words.band(statedPercent(level)).replace("Bands", "Lines"),
    `${words.windowOf(statedRange(window.from, window.to))}.`,
    ...bands.map(({ from, to, sensitivity, specificity }) =>
      words.inBand(
        statedRange(from, to),
        named(words.positiveMeasure(agreement), sensitivity),
        named(words.negativeMeasure(agreement), specificity),
      ),
    ),
  ].join(" ");
}
