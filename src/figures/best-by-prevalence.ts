import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { FLAG_OFFSET, placeFlags } from "./flag-lanes.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { words as wordsAt } from "./people-scale.ts";
import { type Domain, pixel, prevalenceTicks } from "./prevalence-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { spreadLabels } from "./spread-labels.ts";
import { LABEL_SIZE } from "./theme.ts";

/** A stretch of prevalences over which one algorithm stays the best; `null` where none reaches the targets. */
export interface BestStretch {
  readonly name: string | null;
  readonly from: number;
  readonly to: number;
}

/** The probability of being best of one algorithm at each prevalence. */
export interface BestChance {
  readonly name: string;
  readonly points: readonly { readonly prevalence: number; readonly chance: number }[];
}

export interface BestByPrevalenceData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly stretches: readonly BestStretch[];
  /** Empty where nothing was drawn at random. */
  readonly chances: readonly BestChance[];
  readonly channels: readonly { readonly title: string; readonly prevalence: number }[];
  readonly words?: AlgorithmChartWords;
}

const WIDTH = 600;
const BAND = 26;
const LANE = 17;
const GAP = 34;
const LINES = 150;
const RIGHT = 200;
const { ink, muted, deep, pale, paper, amber, rule } = LIGHT_INKS;
/** Shades of neighbouring stretches. */
const FILLS = [pale, paper] as const;

/**
 * Which algorithm is best at which prevalence: a strip on a ratio scale, cut where the best choice changes, and
 * below it the probability that each is the best, given what is uncertain.
 */
export function bestByPrevalence(data: BestByPrevalenceData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const domain: Domain = {
    from: Math.min(0.5, ...data.stretches.map(({ from }) => from).filter((from) => from > 0)),
    to: Math.max(0.001, ...data.stretches.map(({ to }) => to)),
  };
  const named = stretchNames(data, domain, words);
  const channels = channelMarks(data, domain);
  const lines = data.chances.length === 0 ? 0 : GAP + LINES;
  const frame: Frame = {
    width: WIDTH,
    height: BAND + lines,
    top: 16 + named.lanes * LANE + channels.lanes * LANE,
    right: data.chances.length === 0 ? 70 : RIGHT,
    bottom: 50,
    left: 50,
  };
  const wording = {
    name: data.name,
    title: words.bestTitle,
    description: [
      words.bestDescription,
      ...data.stretches.map(({ name, from, to }) =>
        words.bestStretch(name ?? words.noneMeets, percentOf(from), percentOf(to)),
      ),
    ].join(" "),
  };
  return layered(wording, frame, [
    ...strip(data, domain, words, frame.height),
    ...named.layers,
    ...channels.layers(named.lanes, frame.height),
    ...chanceLines(data, domain, words),
  ]);
}

/** Three significant digits: a prevalence where the choice changes is reckoned, not stated. */
function percentOf(share: number): string {
  return String(Number((share * 100).toPrecision(3)));
}

const across = (prevalence: number, domain: Domain) =>
  Math.min(Math.max(pixel(prevalence, domain), 0), WIDTH);

const xChannel = (field: string, domain: Domain, words: AlgorithmChartWords) => ({
  field,
  type: "quantitative" as const,
  scale: { type: "log" as const, domain: [domain.from, domain.to], nice: false },
  axis: {
    values: prevalenceTicks(domain),
    labelExpr: "format(datum.value * 100, '.12~r')",
    labelAlign: "center" as const,
    title: words.prevalence,
    titlePadding: 10,
    titleAnchor: "start" as const,
    tickRound: false,
  },
});

function strip(
  data: BestByPrevalenceData,
  domain: Domain,
  words: AlgorithmChartWords,
  height: number,
): Layer[] {
  const values = data.stretches.map(({ name, from, to }, at) => ({
    algorithm: name ?? words.noneMeets,
    prevalence: Math.max(from, domain.from),
    to: Math.min(to, domain.to),
    fill: name === null ? paper : FILLS[at % 2],
  }));
  const cuts = data.stretches.slice(1).map(({ from }) => ({ prevalence: from }));
  return [
    {
      data: { values },
      mark: { type: "rect", stroke: deep, strokeWidth: 1, opacity: 1 },
      encoding: {
        x: xChannel("prevalence", domain, words),
        x2: { field: "to" },
        y: { value: 0 },
        y2: { value: BAND },
        fill: { field: "fill", type: "nominal", scale: null },
      },
    },
    ...(height > BAND && cuts.length > 0
      ? [
          {
            data: { values: cuts },
            mark: { type: "rule" as const, color: muted, strokeDash: [2, 2] },
            encoding: {
              x: xChannel("prevalence", domain, words),
              y: { value: BAND },
              y2: { value: height },
            },
          },
        ]
      : []),
  ];
}

/** The name of each stretch inside it, or above it on a leader where it is too narrow. */
function stretchNames(data: BestByPrevalenceData, domain: Domain, words: AlgorithmChartWords) {
  let lanes = 0;
  const ends: number[] = [];
  const layers = data.stretches.flatMap(({ name, from, to }): Layer[] => {
    const [left, right] = [across(from, domain), across(to, domain)];
    const text = name ?? words.noneMeets;
    const width = textWidth(text, LABEL_SIZE);
    const color = name === null ? muted : ink;
    if (width + 8 <= right - left) {
      return [wordsAt(text, (left + right) / 2, BAND / 2 + 4, { align: "center", color })];
    }
    const x = (left + right) / 2;
    const start = Math.max(-40, Math.min(x, WIDTH + 60 - width));
    const lane = freeLane(ends, start);
    ends[lane] = start + width + 12;
    lanes = Math.max(lanes, lane + 1);
    const y = -8 - lane * LANE;
    return [
      {
        data: { values: [{ words: text }] },
        mark: { type: "rule", color: muted },
        encoding: { x: { value: x }, y: { value: y + 2 }, y2: { value: BAND / 2 } },
      },
      wordsAt(text, start + 3, y, { color }),
    ];
  });
  return { layers, lanes };
}

function freeLane(ends: readonly number[], start: number): number {
  const free = ends.findIndex((end) => end <= start);
  return free < 0 ? ends.length : free;
}

/** The channels as flags above everything. */
function channelMarks({ channels }: BestByPrevalenceData, domain: Domain) {
  const inside = channels
    .filter(({ prevalence }) => prevalence >= domain.from && prevalence <= domain.to)
    .map(({ title, prevalence }) => {
      const text = `${title}, ${Number((prevalence * 100).toPrecision(2))}\u202f%`;
      return { text, x: across(prevalence, domain), width: textWidth(text, LABEL_SIZE) };
    });
  const placed = placeFlags(inside, -45, WIDTH + 60);
  const layers = (above: number, height: number): Layer[] =>
    inside.flatMap(({ x, text }, at) => {
      const { lane = 0, anchor = "start" } = placed[at] ?? {};
      const y = -10 - (above + lane) * LANE;
      const rule = (from: number, to: number): Layer => ({
        data: { values: [{ words: text }] },
        mark: { type: "rule", color: amber, strokeWidth: 1, strokeDash: [1.5, 2.5] },
        encoding: { x: { value: x }, y: { value: from }, y2: { value: to } },
      });
      const end = anchor === "end";
      return [
        rule(y - 9, 0),
        ...(height > BAND ? [rule(BAND, height)] : []),
        wordsAt(text, x + (end ? -FLAG_OFFSET : FLAG_OFFSET), y, {
          align: end ? "right" : "left",
          color: amber,
        }),
      ];
    });
  return { layers, lanes: Math.max(0, ...placed.map(({ lane }) => lane + 1)) };
}

function chanceLines({ chances }: BestByPrevalenceData, domain: Domain, words: AlgorithmChartWords): Layer[] {
  if (chances.length === 0) return [];
  const top = BAND + GAP;
  const height = (chance: number) => top + LINES * (1 - chance);
  const grid = [0, 0.5, 1].map((chance) => ({ chance, words: String(chance * 100), y: height(chance) }));
  const y = { field: "y", type: "quantitative" as const, scale: null, axis: null };
  const ends = chances.map(({ points }) => {
    const most = points.reduce(
      (best, point) => (point.chance > best.chance ? point : best),
      points[0] ?? { prevalence: domain.to, chance: 0 },
    );
    return { most, last: points.at(-1)?.chance ?? 0 };
  });
  const heights = spreadLabels(
    ends.map(({ last }) => height(last)),
    15,
    top,
    top + LINES,
  );
  return [
    {
      data: { values: grid },
      mark: { type: "rule", color: rule },
      encoding: { x: { value: 0 }, x2: { value: WIDTH }, y },
    },
    {
      data: { values: grid },
      mark: { type: "text", align: "right", baseline: "middle", dx: -8, color: muted },
      encoding: { x: { value: 0 }, y, text: { field: "words" } },
    },
    wordsAt(words.chanceBest, -34, top - 10),
    ...chances.flatMap(({ name, points }, at): Layer[] => [
      {
        data: { values: points.map((point) => ({ algorithm: name, ...point, y: height(point.chance) })) },
        mark: {
          type: "line",
          color: DASHES[at % DASHES.length]?.color ?? deep,
          strokeWidth: 1.8,
          strokeDash: [...(DASHES[at % DASHES.length]?.dash ?? [])],
        },
        encoding: { x: xChannel("prevalence", domain, words), y },
      },
      wordsAt(name, WIDTH + 10, (heights[at] ?? 0) + 4, { color: DASHES[at % DASHES.length]?.color ?? deep }),
    ]),
  ];
}

/** Lines told apart by dash as well as by ink. */
const DASHES = [
  { color: deep, dash: [] },
  { color: ink, dash: [6, 3] },
  { color: muted, dash: [2, 2] },
  { color: deep, dash: [8, 2, 2, 2] },
  { color: ink, dash: [1, 3] },
] as const;
