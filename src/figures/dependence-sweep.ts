import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { LIGHT_INKS } from "./inks.ts";
import { drawn, estimatedPercent, statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { spreadLabels } from "./spread-labels.ts";

export interface SweepLine {
  /** The channel. */
  readonly title: string;
  readonly points: readonly { readonly value: number; readonly ppv: number | null }[];
}

export interface DependenceSweepData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The two kits as a reader knows them. */
  readonly pair: string;
  /** What the axis is: the error correlation of two kits, or the spread of what all kits share. */
  readonly over: "phi" | "spread";
  readonly lines: readonly SweepLine[];
  /** The dependence that the answer is reckoned with. */
  readonly stated: number;
  /** PPV wanted, a proportion. */
  readonly target: number | null;
  readonly words?: AlgorithmChartWords;
}

const WIDTH = 560;
const HEIGHT = 230;
const RIGHT = 200;
const { ink, muted, deep, amber, paper } = LIGHT_INKS;
const FLOORS = [0.99, 0.98, 0.95, 0.9, 0.8, 0.6, 0.4, 0.2, 0];

/**
 * The share of those called positive who truly are, over the error correlation of two kits: one line a channel,
 * hollow dots where the kits would be independent, full ones at the correlation that is stated.
 */
export function dependenceSweep(data: DependenceSweepData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const lines = data.lines.filter(({ points }) => points.some(({ ppv }) => ppv !== null));
  const scales = scalesOf(data, lines);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 58, right: RIGHT, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.sweepTitle(data.pair),
    description: [
      words.sweepDescription(data.pair),
      ...lines.map((line) => lineInWords(line, data, words)),
    ].join(" "),
  };
  return layered(wording, frame, [
    ...targetRule(data.target, scales),
    ...statedRule(data, scales, words),
    ...lines.map((line) => drawLine(line, scales, words)),
    ...dots(lines, 0, scales, words, true),
    ...dots(lines, data.stated, scales, words, false),
    ...names(lines, data.target, scales, words),
    wordsAt(words.sweepAxis, TITLE_LEFT, -36),
  ]);
}

interface Scales {
  readonly over: DependenceSweepData["over"];
  readonly most: number;
  readonly floor: number;
}

function scalesOf({ over, stated, target }: DependenceSweepData, lines: readonly SweepLine[]): Scales {
  const points = lines.flatMap((line) => line.points);
  const shares = points.flatMap(({ ppv }) => (ppv === null ? [] : [ppv])).concat(target ?? []);
  const least = Math.min(1, ...shares);
  return {
    over,
    most: Math.max(stated, 0.01, ...points.map(({ value }) => value)),
    floor: FLOORS.find((floor) => floor < least - (1 - floor) * 0.04) ?? 0,
  };
}

const xChannel = ({ most, over }: Scales, words: AlgorithmChartWords) => ({
  field: "dependence",
  type: "quantitative" as const,
  scale: { domain: [0, most], nice: false, zero: true },
  axis: {
    title: words.dependence[over],
    titleAnchor: "start" as const,
    titlePadding: 10,
    tickCount: 7,
    format: "~g",
    tickRound: false,
  },
});

const yChannel = ({ floor }: Scales) => ({
  field: "ppv",
  type: "quantitative" as const,
  scale: { domain: [floor, 1], nice: false, zero: false },
  axis: { tickCount: 6, labelExpr: "format(datum.value * 100, '.6~r')", title: null },
});

function drawLine({ title, points }: SweepLine, scales: Scales, words: AlgorithmChartWords): Layer {
  return {
    data: {
      values: points.map(({ value, ppv }) => ({
        channel: title,
        dependence: drawn(value),
        ppv: ppv === null ? null : drawn(ppv),
      })),
    },
    mark: { type: "line", color: deep, strokeWidth: 1.8 },
    encoding: { x: xChannel(scales, words), y: yChannel(scales) },
  };
}

function targetRule(target: number | null, scales: Scales): Layer[] {
  if (target === null) return [];
  return [
    {
      data: { values: [{ ppv: target }] },
      mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
      encoding: { y: yChannel(scales), x: { value: 0 }, x2: { value: WIDTH } },
    },
  ];
}

/** A rule at the correlation that is stated, with its words above the plot. */
function statedRule({ stated }: DependenceSweepData, { most }: Scales, words: AlgorithmChartWords): Layer[] {
  const x = (WIDTH * stated) / most;
  const text = words.statedAt(statedPercentless(stated));
  const right = x > WIDTH - 120;
  return [
    {
      data: { values: [{ dependence: stated }] },
      mark: { type: "rule", color: ink, strokeWidth: 1, strokeDash: [1.5, 2.5] },
      encoding: { x: { value: x }, y: { value: -18 }, y2: { value: HEIGHT } },
    },
    wordsAt(text, x + (right ? -5 : 5), -9, { align: right ? "right" : "left", bold: true }),
  ];
}

/** A stated correlation without decimals that it did not have. */
function statedPercentless(phi: number): string {
  return String(Number(phi.toFixed(3)));
}

function dots(
  lines: readonly SweepLine[],
  phi: number,
  scales: Scales,
  words: AlgorithmChartWords,
  hollow: boolean,
): Layer[] {
  const values = lines.flatMap((line) => {
    const ppv = at(line, phi);
    return ppv === null
      ? []
      : [{ channel: line.title, dependence: phi, ppv, words: estimatedPercent(ppv, "") }];
  });
  if (values.length === 0) return [];
  const encoding = { x: xChannel(scales, words), y: yChannel(scales) };
  return [
    {
      data: { values },
      mark: {
        type: "point",
        filled: true,
        shape: "circle",
        size: 52,
        fill: hollow ? paper : deep,
        stroke: hollow ? deep : paper,
        strokeWidth: hollow ? 1.6 : 1.2,
        opacity: 1,
        clip: false,
      },
      encoding,
    },
  ];
}

/** A line's value, straight between the points given. */
function at({ points }: SweepLine, phi: number): number | null {
  const after = points.findIndex((point) => point.value >= phi - 1e-12);
  const right = points[after];
  const left = points[Math.max(0, after - 1)];
  if (right === undefined || left === undefined || right.ppv === null || left.ppv === null) return null;
  if (right.value <= left.value) return right.ppv;
  return left.ppv + ((right.ppv - left.ppv) * (phi - left.value)) / (right.value - left.value);
}

function names(
  lines: readonly SweepLine[],
  target: number | null,
  { floor }: Scales,
  words: AlgorithmChartWords,
): Layer[] {
  const height = (share: number) => HEIGHT * (1 - (share - floor) / (1 - floor));
  const all = [
    ...lines.map(({ title, points }) => ({
      name: title,
      color: deep,
      y: height(points.findLast(({ ppv }) => ppv !== null)?.ppv ?? floor),
    })),
    ...(target === null
      ? []
      : [{ name: words.target(`${statedPercent(target)}\u202f%`), color: amber, y: height(target) }]),
  ];
  const heights = spreadLabels(
    all.map(({ y }) => y),
    15,
    0,
    HEIGHT,
  );
  return all.map(({ name, color }, index) =>
    wordsAt(name, WIDTH + 10, (heights[index] ?? 0) + 4, { color: color === deep ? muted : color }),
  );
}

function lineInWords(line: SweepLine, { stated }: DependenceSweepData, words: AlgorithmChartWords): string {
  const share = (phi: number) => estimatedPercent(at(line, phi), "–");
  return words.sweepLine(line.title, share(0), share(stated), statedPercentless(stated));
}
