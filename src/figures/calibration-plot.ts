import { LIGHT_INKS } from "./inks.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "./intensity-words.ts";
import { drawn, estimatedPercent, estimatedRange } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

/** People to whom the instrument gave about the same probability. */
export interface CalibrationGroup {
  readonly predicted: number;
  readonly people: number;
  readonly observed: number;
  readonly lower: number;
  readonly upper: number;
}

export interface CalibrationPlotData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly of: string;
  readonly groups: readonly CalibrationGroup[];
  readonly words?: IntensityChartWords;
}

const SIDE = 320;
const { muted, deep, paper } = LIGHT_INKS;

/** What share has the condition where the instrument gives such a probability; on the slanted line it is right. */
export function calibrationPlot(data: CalibrationPlotData): Specification {
  const words = data.words ?? INTENSITY_CHART_WORDS;
  const frame: Frame = { width: SIDE, height: SIDE, top: 34, right: 110, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.calibrationTitle(data.of),
    description: inWords(data, words),
  };
  return layered(wording, frame, [
    diagonal(),
    ...groups(data.groups),
    wordsAt(words.right, SIDE + 8, 4, { color: muted }),
    wordsAt(words.observed, -42, -16),
    wordsAt(words.predicted, 0, SIDE + 38),
  ]);
}

const share = (field: string) => ({
  field,
  type: "quantitative" as const,
  scale: { domain: [0, 1], nice: false, zero: true },
  axis: { values: [0, 0.2, 0.4, 0.6, 0.8, 1], labelExpr: "format(datum.value * 100, 'd')", title: null },
});

function diagonal(): Layer {
  return {
    data: {
      values: [
        { predicted: 0, observed: 0 },
        { predicted: 1, observed: 1 },
      ],
    },
    mark: { type: "line", color: muted, strokeWidth: 1, strokeDash: [4, 3] },
    encoding: { x: share("predicted"), y: share("observed") },
  };
}

const SMALLEST = 26;
const LARGEST = 150;

function groups(all: readonly CalibrationGroup[]): Layer[] {
  const most = Math.max(1, ...all.map(({ people }) => people));
  const values = all.map(({ predicted, people, observed, lower, upper }) => ({
    predicted: drawn(predicted),
    observed: drawn(observed),
    lower: drawn(lower),
    upper: drawn(upper),
    people,
    area: drawn(SMALLEST + ((LARGEST - SMALLEST) * people) / most),
  }));
  return [
    {
      data: { values },
      mark: { type: "rule", color: deep, strokeWidth: 1.8 },
      encoding: { x: share("predicted"), y: share("lower"), y2: { field: "upper" } },
    },
    {
      data: { values },
      mark: {
        type: "point",
        filled: true,
        shape: "circle",
        fill: deep,
        stroke: paper,
        strokeWidth: 1.2,
        opacity: 1,
      },
      encoding: {
        x: share("predicted"),
        y: share("observed"),
        size: { field: "area", type: "quantitative", scale: null, legend: null },
      },
    },
  ];
}

function inWords({ groups: all }: CalibrationPlotData, words: IntensityChartWords): string {
  return [
    words.calibrationDescription,
    ...all.map(({ predicted, observed, lower, upper }) =>
      words.calibrated(
        estimatedPercent(predicted, ""),
        estimatedRange({ value: observed, lower, upper }, ""),
      ),
    ),
  ].join(" ");
}
