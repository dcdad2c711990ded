import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

/** An algorithm on the map of cost and errors. */
export interface FrontierPoint {
  readonly name: string;
  readonly cost: number;
  /** Per 100,000 tested, as are the missed. */
  readonly falsePositives: number;
  readonly missed: number;
  /** Reaches every target. */
  readonly keeps: boolean;
  /** Cheapest of those that do. */
  readonly best: boolean;
}

export interface CostFrontierData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly channel: string;
  readonly unit: string;
  readonly points: readonly FrontierPoint[];
  /** Numbers of people and money as text. */
  readonly people: (value: number) => string;
  readonly money: (value: number) => string;
  readonly words?: AlgorithmChartWords;
}

const WIDTH = 640;
const UPPER = 210;
const BETWEEN = 52;
const LOWER = 130;
const LEFT = 62;
const RIGHT = 150;
const { ink, muted, deep, paper, rule } = LIGHT_INKS;
/** Fewer than so many false positives are drawn as so many: a ratio scale has no 0. */
const LEAST = 0.1;
const TICKS = [0.1, 1, 10, 100, 1000, 10_000, 100_000];

/**
 * Algorithms that no other beats, by cost per client: above the false positives on a ratio scale, below the
 * missed. Full dots reach every target, hollow ones don't; the ring is the cheapest that does.
 */
export function costFrontier(data: CostFrontierData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const scales = scalesOf(data.points);
  const frame: Frame = {
    width: WIDTH,
    height: UPPER + BETWEEN + LOWER,
    top: 40,
    right: RIGHT,
    bottom: 50,
    left: LEFT,
  };
  const wording = {
    name: data.name,
    title: words.frontierTitle(data.channel),
    description: [
      words.frontierDescription,
      ...data.points.map((point) => pointInWords(point, data, words)),
    ].join(" "),
  };
  return layered(wording, frame, [
    ...panel(scales.falsePositives),
    ...panel(scales.missed),
    ...links(data.points, scales),
    ...points(data, scales, words),
    ...labels(data.points, scales),
    wordsAt(words.falsePositives, -LEFT + 8, -18),
    wordsAt(words.missed, -LEFT + 8, UPPER + BETWEEN - 16),
  ]);
}

/** A vertical scale of one of the two panels. */
interface Panel {
  readonly top: number;
  readonly height: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  readonly pixel: (value: number) => number;
}

interface Scales {
  readonly cost: readonly [number, number];
  readonly falsePositives: Panel;
  readonly missed: Panel;
}

function scalesOf(points: readonly FrontierPoint[]): Scales {
  const costs = points.map(({ cost }) => cost);
  const [least, most] = [Math.min(...costs, Number.POSITIVE_INFINITY), Math.max(...costs, 0)];
  const room = most > least ? (most - least) * 0.05 : Math.max(most * 0.1, 0.1);
  return {
    cost: points.length === 0 ? [0, 1] : [Math.max(0, least - room), most + room],
    falsePositives: ratioPanel(points.map(({ falsePositives }) => falsePositives)),
    missed: plainPanel(points.map(({ missed }) => missed)),
  };
}

function ratioPanel(values: readonly number[]): Panel {
  const bounded = values.map((value) => Math.max(LEAST, value));
  const from = TICKS.findLast((tick) => tick <= Math.min(10, ...bounded)) ?? LEAST;
  const to = TICKS.find((tick) => tick >= Math.max(100, ...bounded)) ?? 100_000;
  const ticks = TICKS.filter((tick) => tick >= from && tick <= to);
  const span = Math.log(to / from);
  return {
    top: 0,
    height: UPPER,
    ticks: ticks.map((value) => ({ value, text: grouped(value) })),
    pixel: (value) => UPPER * (1 - Math.log(Math.max(LEAST, value) / from) / span),
  };
}

function plainPanel(values: readonly number[]): Panel {
  const most = Math.max(1, ...values);
  const size = Math.pow(10, Math.floor(Math.log10(most)));
  const step = [0.2, 0.5, 1, 2, 5].map((part) => part * size).find((one) => most / one <= 4.2) ?? size;
  const to = Math.ceil((most * 1.02) / step) * step;
  const top = UPPER + BETWEEN;
  const ticks = Array.from({ length: Math.round(to / step) + 1 }, (_, at) => at * step);
  return {
    top,
    height: LOWER,
    ticks: ticks.map((value) => ({ value, text: grouped(value) })),
    pixel: (value) => top + LOWER * (1 - value / to),
  };
}

function grouped(value: number): string {
  const [whole = "0", part] = String(Number(value.toPrecision(6))).split(".");
  const text = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return part === undefined ? text : `${text}.${part}`;
}

/** Grid lines and their numbers: two scales upwards have no place in one layered chart. */
function panel({ ticks, pixel }: Panel): Layer[] {
  const values = ticks.map(({ value, text }) => ({ value, words: text, y: pixel(value) }));
  const y = { field: "y", type: "quantitative" as const, scale: null, axis: null };
  return [
    {
      data: { values },
      mark: { type: "rule", color: rule },
      encoding: { x: { value: 0 }, x2: { value: WIDTH }, y },
    },
    {
      data: { values },
      mark: { type: "text", align: "right", baseline: "middle", dx: -8, color: muted },
      encoding: { x: { value: 0 }, y, text: { field: "words" } },
    },
  ];
}

/** A thin line from the upper dot of an algorithm that reaches the targets down to its lower one. */
function links(all: readonly FrontierPoint[], scales: Scales): Layer[] {
  const pixels = { type: "quantitative" as const, scale: null, axis: null };
  const values = all
    .filter(({ keeps, best }) => keeps || best)
    .map((point) => ({
      cost: point.cost,
      from: scales.falsePositives.pixel(point.falsePositives),
      to: scales.missed.pixel(point.missed),
    }));
  return [
    {
      data: { values },
      mark: { type: "rule", color: muted, strokeWidth: 0.6, strokeDash: [1, 3] },
      encoding: {
        x: { field: "cost", type: "quantitative" },
        y: { field: "from", ...pixels },
        y2: { field: "to" },
      },
    },
  ];
}

const xChannel = (scales: Scales, title: string) => ({
  field: "cost",
  type: "quantitative" as const,
  scale: { domain: [...scales.cost], nice: false, zero: false },
  axis: { title, titleAnchor: "start" as const, titlePadding: 10, tickCount: 8, tickRound: false },
});

function points(data: CostFrontierData, scales: Scales, words: AlgorithmChartWords): Layer[] {
  const x = xChannel(scales, words.cost(data.unit));
  const y = { field: "y", type: "quantitative" as const, scale: null, axis: null };
  const kinds = [false, true].flatMap((keeps) =>
    (["falsePositives", "missed"] as const).map((measure): Layer => {
      const values = data.points
        .filter((point) => point.keeps === keeps)
        .map(({ name, cost, ...one }) => ({
          name,
          cost,
          [measure]: one[measure],
          y: scales[measure].pixel(one[measure]),
        }));
      return {
        data: { values },
        mark: {
          type: "point",
          filled: true,
          shape: "circle",
          size: keeps ? 56 : 40,
          fill: keeps ? deep : paper,
          stroke: keeps ? paper : deep,
          strokeWidth: 1.2,
          opacity: 1,
        },
        encoding: { x, y },
      };
    }),
  );
  const best = data.points.filter((point) => point.best);
  const rings = best.flatMap((point) =>
    (["falsePositives", "missed"] as const).map(
      (measure): Layer => ({
        data: { values: [{ name: point.name, cost: point.cost, y: scales[measure].pixel(point[measure]) }] },
        mark: { type: "point", filled: false, shape: "circle", size: 170, stroke: ink, strokeWidth: 1.4 },
        encoding: { x, y },
      }),
    ),
  );
  return [...kinds, ...rings];
}

interface Label {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly align: "left" | "right";
  readonly bold: boolean;
}

/** Names beside their dots in the upper panel, where no other name or dot is in the way; the best ones first. */
function labels(points: readonly FrontierPoint[], scales: Scales): Layer[] {
  const across = (cost: number) => (WIDTH * (cost - scales.cost[0])) / (scales.cost[1] - scales.cost[0]);
  const placed: { left: number; right: number; top: number; bottom: number }[] = points.map((point) => {
    const [x, y] = [across(point.cost), scales.falsePositives.pixel(point.falsePositives)];
    return { left: x - 5, right: x + 5, top: y - 5, bottom: y + 5 };
  });
  const rank = ({ best, keeps }: FrontierPoint) => (best ? 0 : keeps ? 1 : 2);
  const wanted = points.toSorted((one, other) => rank(one) - rank(other) || one.cost - other.cost);
  const chosen: Label[] = [];
  for (const point of wanted) {
    const [x, y] = [across(point.cost), scales.falsePositives.pixel(point.falsePositives)];
    const width = textWidth(point.name, LABEL_SIZE, point.best ? "bold" : "normal");
    const tries = [0, -13, 13, -26, 26].flatMap((lift) =>
      (["left", "right"] as const).map((align) => ({ align, lift })),
    );
    for (const { align, lift } of tries) {
      const left = align === "left" ? x + 11 : x - 11 - width;
      const box = { left, right: left + width, top: y + lift - 6, bottom: y + lift + 6 };
      const outside =
        box.left < 0 || box.right > WIDTH + RIGHT - 4 || box.top < -10 || box.bottom > UPPER + 12;
      const hit = placed.some(
        (other) =>
          other.left < box.right &&
          other.right > box.left &&
          other.top < box.bottom &&
          other.bottom > box.top,
      );
      if (outside || hit) continue;
      placed.push(box);
      const at = align === "left" ? x + 11 : x - 11;
      chosen.push({ text: point.name, x: at, y: y + lift + 4, align, bold: point.best });
      break;
    }
  }
  return chosen.map(({ text, x, y, align, bold }) =>
    wordsAt(text, x, y, { align, bold, color: bold ? ink : muted }),
  );
}

function pointInWords(point: FrontierPoint, data: CostFrontierData, words: AlgorithmChartWords): string {
  const cost = `${data.money(point.cost)} ${data.unit}`;
  return words.frontierPoint(point.name, cost, data.people(point.falsePositives), data.people(point.missed));
}
