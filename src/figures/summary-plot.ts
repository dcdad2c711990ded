import { LIGHT_INKS } from "./inks.ts";
import { drawn, estimatedPercent, statedPercent } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { POOL_CHART_WORDS, type PoolChartWords } from "./pool-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { byKind, studyLook } from "./study-looks.ts";

/** A place in the plot; both shares. */
interface Place {
  readonly sensitivity: number;
  readonly specificity: number;
}

/** A study as seen, not drawn in. */
export interface PlottedStudy extends Place {
  readonly label: string;
  readonly people: number;
  /** Kind of study, one of `kinds`; `null`: none. */
  readonly kind: string | null;
}

export interface SummaryPlotData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** Level of the regions. */
  readonly level: number;
  readonly studies: readonly PlottedStudy[];
  /** Kinds of study, each with its summary point; none where there is no covariate. */
  readonly kinds: readonly { readonly kind: string; readonly summary: Place | null }[];
  readonly summary: Place | null;
  /** Closed lines, and the curve; empty where there are none. */
  readonly confidence: readonly Place[];
  readonly prediction: readonly Place[];
  readonly curve: readonly Place[];
  readonly words?: PoolChartWords;
}

const SIDE = 400;
const LEGEND = 262;
const { ink, muted, paper, deep } = LIGHT_INKS;
const SMALLEST = 22;
const LARGEST = 330;

/**
 * Studies in the plane of specificity (falling to the right) and sensitivity, with the summary point, its confidence
 * region, the prediction region of a new place and the summary curve. The scales begin where the figures do.
 */
export function summaryPlot(data: SummaryPlotData): Specification {
  const words = data.words ?? POOL_CHART_WORDS;
  const scales = scalesOf(data);
  const frame: Frame = { width: SIDE, height: SIDE, top: 34, right: LEGEND, bottom: 50, left: 50 };
  const wording = { name: data.name, title: words.plotTitle, description: inWords(data, words) };
  return layered(wording, frame, [
    region(data.prediction, scales, { stroke: muted, strokeWidth: 1.2, strokeDash: [5, 4] }),
    ...studies(data, scales),
    line(data.curve, scales),
    region(data.confidence, scales, { stroke: ink, strokeWidth: 1.4 }),
    ...kindSummaries(data, scales),
    ...summaryMark(data.summary, scales),
    ...legend(data, words),
    wordsAt(words.sensitivity, -42, -16),
    wordsAt(words.specificity, 0, SIDE + 38),
  ]);
}

type Scales = ReturnType<typeof scalesOf>;

/** Where a scale begins: a round share below everything that is to be seen. */
function begin(shares: readonly number[]): number {
  const least = Math.min(0.98, ...shares);
  const step = least < 0.6 ? 0.2 : least < 0.9 ? 0.1 : least < 0.96 ? 0.05 : 0.02;
  return Math.max(0, Number((Math.floor((least - 0.005) / step) * step).toFixed(2)));
}

function scalesOf(data: SummaryPlotData) {
  const places = [...data.studies, ...data.prediction, ...data.confidence];
  const x = begin(places.map(({ specificity }) => specificity));
  const y = begin(places.map(({ sensitivity }) => sensitivity));
  const axis = { labelExpr: "format(datum.value * 100, '.4~g')", tickCount: 5 };
  return {
    x: {
      field: "specificity",
      type: "quantitative" as const,
      scale: { domain: [x, 1], nice: false, reverse: true },
      axis: { ...axis, title: null },
    },
    y: {
      field: "sensitivity",
      type: "quantitative" as const,
      scale: { domain: [y, 1], nice: false },
      axis: { ...axis, title: null },
    },
  };
}

const short = ({ sensitivity, specificity }: Place) => ({
  sensitivity: drawn(sensitivity),
  specificity: drawn(specificity),
});

function region(
  places: readonly Place[],
  { x, y }: Scales,
  look: { stroke: string; strokeWidth: number; strokeDash?: number[] },
): Layer {
  return {
    data: { values: places.map((place, order) => ({ ...short(place), order })) },
    mark: { type: "line", interpolate: "linear-closed", clip: true, ...look },
    encoding: { x, y, order: { field: "order" } },
  };
}

function line(places: readonly Place[], { x, y }: Scales): Layer {
  return {
    data: { values: places.map((place, order) => ({ ...short(place), order })) },
    mark: { type: "line", stroke: deep, strokeWidth: 1.6, clip: true },
    encoding: { x, y, order: { field: "order" } },
  };
}

/** Areas that grow with the number of people. */
function studies({ studies: all, kinds }: SummaryPlotData, { x, y }: Scales): Layer[] {
  const most = Math.max(1, ...all.map(({ people }) => people));
  return byKind(
    all,
    kinds.map(({ kind }) => kind),
  ).map(({ at, mine }): Layer => {
    const values = mine
      .toSorted((one, other) => other.people - one.people)
      .map((study) => ({
        study: study.label,
        ...short(study),
        people: study.people,
        area: drawn(SMALLEST + ((LARGEST - SMALLEST) * study.people) / most),
      }));
    return {
      data: { values },
      mark: { type: "point", filled: true, ...studyLook(at) },
      encoding: { x, y, size: { field: "area", type: "quantitative", scale: null, legend: null } },
    };
  });
}

/** The summary point: a square that no study bears. */
function summaryMark(summary: Place | null, { x, y }: Scales): Layer[] {
  if (summary === null) return [];
  return [
    {
      data: { values: [short(summary)] },
      mark: {
        type: "point",
        filled: true,
        shape: "square",
        size: 78,
        fill: ink,
        stroke: paper,
        strokeWidth: 1.4,
        opacity: 1,
      },
      encoding: { x, y },
    },
  ];
}

/** The summary of each kind: a cross with its name. */
function kindSummaries({ kinds }: SummaryPlotData, { x, y }: Scales): Layer[] {
  const values = kinds.flatMap(({ kind, summary }) =>
    summary === null ? [] : [{ kind, ...short(summary) }],
  );
  if (values.length === 0) return [];
  return [
    {
      data: { values },
      mark: {
        type: "point",
        filled: true,
        shape: "cross",
        size: 110,
        fill: ink,
        stroke: paper,
        strokeWidth: 1,
        opacity: 1,
      },
      encoding: { x, y },
    },
    ...[{ stroke: paper, strokeWidth: 4 }, { color: ink }].map(
      (look): Layer => ({
        data: { values },
        mark: {
          type: "text",
          align: "left",
          baseline: "middle",
          dx: 12,
          dy: 1,
          fontWeight: "bold",
          ...look,
        },
        encoding: { x, y, text: { field: "kind" } },
      }),
    ),
  ];
}

const KEY = SIDE + 26;
const ROW = 21;

function legend(data: SummaryPlotData, words: PoolChartWords): Layer[] {
  const level = statedPercent(data.level);
  const points = data.kinds.length === 0 ? [words.study] : data.kinds.map(({ kind }) => words.kind(kind));
  const rows: ((y: number) => Layer[])[] = [
    ...points.map((text, at) => (y: number) => [
      dot(y, { size: 90, ...studyLook(at) }),
      wordsAt(text, KEY + 34, y + 4),
    ]),
    (y) => [wordsAt(words.size, KEY + 34, y + 4, { color: muted })],
    ...(data.summary === null
      ? []
      : [
          (y: number) => [
            dot(y, { shape: "square", size: 78, fill: ink, stroke: paper }),
            wordsAt(words.summary, KEY + 34, y + 4),
          ],
        ]),
    ...(data.kinds.length === 0
      ? []
      : [
          (y: number) => [
            dot(y, { shape: "cross", size: 110, fill: ink, stroke: paper }),
            wordsAt(words.kindSummary, KEY + 34, y + 4),
          ],
        ]),
    ...keyed(data.confidence, { color: ink, strokeWidth: 1.4 }, words.confidence(level)),
    ...keyed(
      data.prediction,
      { color: muted, strokeWidth: 1.2, strokeDash: [5, 4] },
      words.prediction(level),
    ),
    ...keyed(data.curve, { color: deep, strokeWidth: 1.6 }, words.curve),
  ];
  return rows.flatMap((row, at) => row(8 + at * ROW));
}

function keyed(
  places: readonly Place[],
  look: { color: string; strokeWidth: number; strokeDash?: number[] },
  text: string,
): ((y: number) => Layer[])[] {
  if (places.length === 0) return [];
  return [
    (y) => [
      {
        data: { values: [{}] },
        mark: { type: "rule", ...look },
        encoding: { x: { value: KEY }, x2: { value: KEY + 24 }, y: { value: y } },
      },
      wordsAt(text, KEY + 34, y + 4),
    ],
  ];
}

function dot(y: number, look: { shape: string; size: number; fill: string; stroke: string }): Layer {
  return {
    data: { values: [{}] },
    mark: { type: "point", filled: true, strokeWidth: 1.1, opacity: 1, ...look },
    encoding: { x: { value: KEY + 12 }, y: { value: y } },
  };
}

function inWords({ studies: all, summary, level, ...lines }: SummaryPlotData, words: PoolChartWords): string {
  const shown = (share: number) => estimatedPercent(share, "");
  const stated = statedPercent(level);
  return [
    words.plotDescription(all.length),
    ...(summary === null ? [] : [words.summaryAt(shown(summary.sensitivity), shown(summary.specificity))]),
    ...(lines.confidence.length === 0 ? [] : [`${words.confidence(stated)}, ${words.prediction(stated)}.`]),
    ...(lines.curve.length === 0 ? [] : [`${words.curve}.`]),
  ].join(" ");
}
