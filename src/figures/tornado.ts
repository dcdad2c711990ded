import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { drawn } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

/** One input at its two ends, all others at their centre. */
export interface TornadoBar {
  readonly input: string;
  /** The input's ends as a reader knows them. */
  readonly low: string;
  readonly high: string;
  /** The outcome at each of them. */
  readonly atLow: number;
  readonly atHigh: number;
}

export interface TornadoData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The outcome as a reader knows it, with its unit. */
  readonly outcome: string;
  readonly centre: number;
  /** The widest first. */
  readonly bars: readonly TornadoBar[];
  /** The outcome as text. */
  readonly format: (value: number) => string;
  /** The outcome on the axis: a Vega expression of `datum.value`. */
  readonly labelExpr: string;
  readonly words?: AlgorithmChartWords;
}

const WIDTH = 460;
const ROW = 26;
const BAR = 12;
const { ink, muted, deep, pale, paper } = LIGHT_INKS;

/**
 * Which uncertain input moves the outcome most: for each a bar from the outcome at its low end (hollow) to the
 * outcome at its high end (full), the others at their centre.
 */
export function tornado(data: TornadoData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const scale = scaleOf(data);
  const left = Math.ceil(
    Math.min(300, Math.max(60, ...data.bars.map(({ input }) => textWidth(input, LABEL_SIZE)))) + 16,
  );
  const height = Math.max(1, data.bars.length) * ROW;
  const frame: Frame = { width: WIDTH, height, top: 66, right: 70, bottom: 50, left };
  const wording = {
    name: data.name,
    title: words.tornadoTitle(data.outcome),
    description: [
      `${words.centre(data.format(data.centre))}.`,
      ...data.bars.map(({ input, low, high, atLow, atHigh }) =>
        words.tornadoBar(input, low, data.format(atLow), high, data.format(atHigh)),
      ),
    ].join(" "),
  };
  return layered(wording, frame, [
    ...halves(data, scale),
    centreRule(data, scale, height),
    ...rowWords(data.bars, scale),
    wordsAt(words.centre(data.format(data.centre)), pixelOf(data.centre, scale), -26, { align: "center" }),
    ...key(words),
  ]);
}

type Scale = readonly [number, number];

function scaleOf({ centre, bars }: TornadoData): Scale {
  const all = [centre, ...bars.flatMap(({ atLow, atHigh }) => [atLow, atHigh])];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const room = most > least ? (most - least) * 0.12 : Math.max(Math.abs(centre) * 0.05, 1e-6);
  return [least - room, most + room];
}

function pixelOf(value: number, [from, to]: Scale): number {
  return (WIDTH * (value - from)) / (to - from);
}

const xChannel = (scale: Scale, field: string, data: TornadoData) => ({
  field,
  type: "quantitative" as const,
  scale: { domain: [...scale], nice: false, zero: false },
  axis: {
    title: data.outcome,
    titleAnchor: "start" as const,
    titlePadding: 10,
    tickCount: 6,
    labelExpr: data.labelExpr,
    tickRound: false,
  },
});

/** Both halves of every bar, from the centre outwards. */
function halves(data: TornadoData, scale: Scale): Layer[] {
  const pixels = { type: "quantitative" as const, scale: null, axis: null };
  return (["low", "high"] as const).map((end): Layer => {
    const values = data.bars.map((bar, row) => ({
      input: bar.input,
      at: bar[end],
      centre: drawn(data.centre),
      outcome: drawn(end === "low" ? bar.atLow : bar.atHigh),
      top: (row + 0.5) * ROW - BAR / 2,
      bottom: (row + 0.5) * ROW + BAR / 2,
    }));
    return {
      data: { values },
      mark: { type: "rect", fill: end === "low" ? paper : pale, stroke: deep, strokeWidth: 1, opacity: 1 },
      encoding: {
        x: xChannel(scale, "centre", data),
        x2: { field: "outcome" },
        y: { field: "top", ...pixels },
        y2: { field: "bottom" },
      },
    };
  });
}

function centreRule(data: TornadoData, scale: Scale, height: number): Layer {
  const x = pixelOf(data.centre, scale);
  return {
    data: { values: [{ centre: data.centre }] },
    mark: { type: "rule", color: ink, strokeWidth: 1.2 },
    encoding: { x: { value: x }, y: { value: -20 }, y2: { value: height } },
  };
}

/** The inputs at the left, and their two ends beside the ends of their bars. */
function rowWords(bars: readonly TornadoBar[], scale: Scale): Layer[] {
  const rows = bars.map((bar, row) => {
    const ends = [
      { words: bar.low, x: pixelOf(bar.atLow, scale) },
      { words: bar.high, x: pixelOf(bar.atHigh, scale) },
    ].sort((one, other) => one.x - other.x);
    return { input: bar.input, y: (row + 0.5) * ROW + 4, left: ends[0], right: ends[1] };
  });
  const pixels = { type: "quantitative" as const, scale: null, axis: null };
  const texts = (
    values: readonly { readonly words: string; readonly x: number; readonly y: number }[],
    align: "left" | "right",
    color: string,
  ): Layer => ({
    data: { values: values.map(({ words, x, y }) => ({ words, x: drawn(x), y })) },
    mark: { type: "text", align, baseline: "alphabetic", color },
    encoding: { x: { field: "x", ...pixels }, y: { field: "y", ...pixels }, text: { field: "words" } },
  });
  return [
    texts(
      rows.map(({ input, y }) => ({ words: input, x: -12, y })),
      "right",
      ink,
    ),
    texts(
      rows.flatMap(({ left, y }) => (left === undefined ? [] : [{ words: left.words, x: left.x - 6, y }])),
      "right",
      muted,
    ),
    texts(
      rows.flatMap(({ right, y }) =>
        right === undefined ? [] : [{ words: right.words, x: right.x + 6, y }],
      ),
      "left",
      muted,
    ),
  ];
}

/** What hollow and full mean. */
function key(words: AlgorithmChartWords): Layer[] {
  const place = (x: number, text: string, fill: string): Layer[] => [
    {
      data: { values: [{ key: text }] },
      mark: { type: "rect", fill, stroke: deep, strokeWidth: 1, opacity: 1 },
      encoding: { x: { value: x }, x2: { value: x + 16 }, y: { value: -62 }, y2: { value: -53 } },
    },
    wordsAt(text, x + 22, -53, { color: muted }),
  ];
  return [
    ...place(0, words.lowInput, paper),
    ...place(34 + textWidth(words.lowInput, LABEL_SIZE) + 12, words.highInput, pale),
  ];
}
