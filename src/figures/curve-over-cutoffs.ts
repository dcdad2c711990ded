import { LIGHT_INKS } from "./inks.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "./intensity-words.ts";
import { drawn, estimatedPercent, statedPercent } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

/** A place in the plot; both shares. */
interface Place {
  readonly sensitivity: number;
  readonly specificity: number;
}

/** A cutoff with the limits of both measures there. */
export interface CurvePoint extends Place {
  readonly lower: Place;
  readonly upper: Place;
}

/** A cutoff, or a reader by eye, that the plot marks; `lower`: the least that the plot makes room for. */
export interface CurveMark extends Place {
  readonly kind: "stated" | "chosen" | "expected" | "eye";
  readonly label: string;
  readonly lower: Place;
}

export interface CurveOverCutoffsData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** What was measured, as a reader knows it. */
  readonly of: string;
  readonly level: number;
  /** One place per cutoff, from the one that calls the fewest people reactive to the one that calls all. */
  readonly points: readonly CurvePoint[];
  readonly marks: readonly CurveMark[];
  readonly words?: IntensityChartWords;
}

const SIDE = 380;
const LEGEND = 270;
const { ink, paper, deep, pale, amber } = LIGHT_INKS;

/**
 * Sensitivity against specificity over all cutoffs, with the limits of each cutoff as a band, and on it the cutoffs
 * and the readers by eye. The scales begin a little below what is marked: there the line is read.
 */
export function curveOverCutoffs(data: CurveOverCutoffsData): Specification {
  const words = data.words ?? INTENSITY_CHART_WORDS;
  const floors = floorsOf(data.marks);
  const scales = scalesOf(floors);
  const frame: Frame = { width: SIDE, height: SIDE, top: 34, right: LEGEND, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.curveTitle(data.of),
    description: inWords(data, words),
  };
  return layered(wording, frame, [
    bandLayer(data, scales),
    line(wholeLine(data.points), scales, { stroke: deep, strokeWidth: 1.8 }),
    ...link(data.marks, scales),
    ...eyesFirst(data.marks).map((mark) => markLayer(mark, scales, eyeAt(data.marks, mark))),
    ...legend(data, words),
    wordsAt(words.sensitivityAxis(statedPercent(floors.sensitivity)), -42, -16),
    wordsAt(words.specificityAxis(statedPercent(floors.specificity)), 0, SIDE + 38),
  ]);
}

/** Where each scale begins: a round share below all marks; at 0 where nothing is marked. */
function floorsOf(marks: readonly CurveMark[]): Place {
  const begin = (shares: readonly number[]) => {
    if (shares.length === 0) return 0;
    const least = Math.min(...shares);
    const step = least < 0.7 ? 0.2 : least < 0.9 ? 0.1 : 0.05;
    return Math.max(0, Number((Math.floor((least - 0.005) / step) * step).toFixed(2)));
  };
  return {
    sensitivity: begin(marks.map(({ lower }) => lower.sensitivity)),
    specificity: begin(marks.map(({ lower }) => lower.specificity)),
  };
}

function scalesOf(floors: Place) {
  const axis = { labelExpr: "format(datum.value * 100, '.4~g')", tickCount: 5, title: null };
  return {
    x: {
      field: "specificity",
      type: "quantitative" as const,
      scale: { domain: [floors.specificity, 1], nice: false, reverse: true, zero: false },
      axis,
    },
    y: {
      field: "sensitivity",
      type: "quantitative" as const,
      scale: { domain: [floors.sensitivity, 1], nice: false, zero: false },
      axis,
    },
  };
}

type Scales = ReturnType<typeof scalesOf>;

/** From nobody reactive to everybody. */
const wholeLine = (points: readonly Place[]): Place[] => [
  { sensitivity: 0, specificity: 1 },
  ...points,
  { sensitivity: 1, specificity: 0 },
];

const ordered = (places: readonly Place[]) =>
  places.map(({ sensitivity, specificity }, order) => ({
    sensitivity: drawn(sensitivity),
    specificity: drawn(specificity),
    order,
  }));

function line(places: readonly Place[], { x, y }: Scales, look: object): Layer {
  return {
    data: { values: ordered(places) },
    mark: { type: "line", clip: true, interpolate: "linear", strokeJoin: "round", ...look },
    encoding: { x, y, order: { field: "order" } },
  };
}

/** From limit to limit of both measures, cutoff by cutoff. */
function bandLayer({ points }: CurveOverCutoffsData, { x, y }: Scales): Layer {
  const border = [...points.map(({ upper }) => upper), ...points.map(({ lower }) => lower).toReversed()];
  return {
    data: { values: ordered(border) },
    mark: {
      type: "line",
      interpolate: "linear-closed",
      clip: true,
      fill: pale,
      fillOpacity: 0.5,
      stroke: pale,
      strokeWidth: 0,
    },
    encoding: { x, y, order: { field: "order" } },
  };
}

/** From the chosen cutoff as these people show it to what is to be expected. */
function link(marks: readonly CurveMark[], scales: Scales): Layer[] {
  const [from, to] = (["chosen", "expected"] as const).map((kind) =>
    marks.find((mark) => mark.kind === kind),
  );
  if (from === undefined || to === undefined) return [];
  return [line([from, to], scales, { stroke: ink, strokeWidth: 1, strokeDash: [2, 2] })];
}

/** Rings lie under the cutoffs: both are seen where they meet. */
const eyesFirst = (marks: readonly CurveMark[]) => [
  ...marks.filter(({ kind }) => kind === "eye"),
  ...marks.filter(({ kind }) => kind !== "eye"),
];

const EYES = ["circle", "triangle-up", "triangle-down", "triangle-right"] as const;

/** The place of a reader among the readers: their marks differ in shape. */
function eyeAt(marks: readonly CurveMark[], mark: CurveMark): number {
  return mark.kind === "eye" ? marks.filter(({ kind }) => kind === "eye").indexOf(mark) : 0;
}

function lookOf(kind: CurveMark["kind"], eye: number) {
  const common = { filled: true, opacity: 1, strokeWidth: 1.4 };
  if (kind === "stated") return { ...common, shape: "square", size: 56, fill: amber, stroke: paper };
  if (kind === "chosen") return { ...common, shape: "diamond", size: 112, fill: paper, stroke: ink };
  if (kind === "expected") return { ...common, shape: "diamond", size: 112, fill: ink, stroke: paper };
  return { ...common, shape: EYES[eye % EYES.length] ?? "circle", size: 150, fill: paper, stroke: deep };
}

function markLayer(mark: CurveMark, { x, y }: Scales, eye: number): Layer {
  return {
    data: { values: [{ sensitivity: drawn(mark.sensitivity), specificity: drawn(mark.specificity) }] },
    mark: { type: "point", ...lookOf(mark.kind, eye) },
    encoding: { x, y },
  };
}

const KEY = SIDE + 26;
const ROW = 22;

function legend({ marks, level }: CurveOverCutoffsData, words: IntensityChartWords): Layer[] {
  const text = (label: string, y: number) => wordsAt(label, KEY + 34, y + 4);
  const rows: ((y: number) => Layer[])[] = [
    (y) => [
      {
        data: { values: [{}] },
        mark: { type: "rule", color: deep, strokeWidth: 1.8 },
        encoding: { x: { value: KEY }, x2: { value: KEY + 24 }, y: { value: y } },
      },
      text(words.curve, y),
    ],
    (y) => [
      {
        data: { values: [{}] },
        mark: { type: "rect", fill: pale, fillOpacity: 0.5 },
        encoding: {
          x: { value: KEY },
          x2: { value: KEY + 24 },
          y: { value: y - 6 },
          y2: { value: y + 6 },
        },
      },
      text(words.band(statedPercent(level)), y),
    ],
    ...marks.map((mark) => (y: number): Layer[] => [
      {
        data: { values: [{}] },
        mark: { type: "point", ...lookOf(mark.kind, eyeAt(marks, mark)) },
        encoding: { x: { value: KEY + 12 }, y: { value: y } },
      },
      text(mark.label, y),
    ]),
  ];
  return rows.flatMap((row, at) => row(8 + at * ROW));
}

function inWords({ marks }: CurveOverCutoffsData, words: IntensityChartWords): string {
  const shown = (share: number) => estimatedPercent(share, "");
  return [
    words.curveDescription,
    ...marks.map(({ label, sensitivity, specificity }) =>
      words.markAt(label, shown(sensitivity), shown(specificity)),
    ),
  ].join(" ");
}
