import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { people as peopleWords, statedPercent } from "./numbers.ts";
import { PLAN_HEIGHT, TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { PLAN_CHART_WORDS, type PlanChartWords } from "./plan-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

interface Cell {
  readonly expected: number | null;
  readonly threshold: number | null;
  /** People needed for good; `null` where nothing reaches the power. */
  readonly stays: number | null;
}

export interface WhatIfSizesData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The measure as a reader knows it. */
  readonly criterion: string;
  /** Whom the axis counts, e.g. reference-positive people. */
  readonly people: string;
  readonly direction: "at_least" | "at_most";
  readonly cells: readonly Cell[];
  /** What the plan itself expects and demands. */
  readonly plan: { readonly expected: number; readonly threshold: number };
  readonly words?: PlanChartWords;
}

interface Point {
  readonly expected: number;
  readonly threshold: number;
  readonly people: number;
}

const WIDTH = 560;
const HEIGHT = PLAN_HEIGHT + 40;
/** Names of lines nearer to each other than this, in pixels, are moved apart. */
const LINE_ROOM = 15;
const { ink, muted, deep, paper, rule } = LIGHT_INKS;
const signed = (share: number) => `${statedPercent(share)}\u202f%`;
/** Powers of ten and what lies between, for a ratio scale. */
const TICKS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000];

/**
 * People needed over what is expected, one line for each criterion, on a ratio scale; the plan's own
 * values bear a ring. Combinations that no number of people can show have no point and are named in the
 * description.
 */
export function whatIfSizes(data: WhatIfSizesData): Specification {
  const words = data.words ?? PLAN_CHART_WORDS;
  const points = pointsOf(data);
  const scales = scalesOf(data, points);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 40, right: 150, bottom: 50, left: 56 };
  const wording = {
    name: data.name,
    title: words.whatIfTitle(data.criterion),
    description: inWords(data, points, words),
  };
  return layered(wording, frame, [
    ...linesOf(points, data, scales, words),
    ...planRing(points, data, scales, words),
    ...lineNames(points, data, scales, words),
    wordsAt(words.whatIfPeople(data.people), TITLE_LEFT, -16),
  ]);
}

function pointsOf({ cells }: WhatIfSizesData): Point[] {
  return cells.flatMap(({ expected, threshold, stays }) =>
    expected === null || threshold === null || stays === null || stays < 1
      ? []
      : [{ expected, threshold, people: stays }],
  );
}

interface Scales {
  readonly expected: readonly [number, number];
  readonly people: readonly [number, number];
}

function scalesOf({ cells }: WhatIfSizesData, points: readonly Point[]): Scales {
  const shares = cells.flatMap(({ expected }) => (expected === null ? [] : [expected]));
  const [least, most] = [Math.min(1, ...shares), Math.max(0, ...shares)];
  const room = most > least ? (most - least) * 0.04 : 0.01;
  const sizes = points.map(({ people }) => people);
  const low = Math.min(1000, ...sizes);
  const high = Math.max(100, ...sizes);
  return {
    expected: [least - room, Math.max(most, least) + room],
    people: [
      TICKS.findLast((tick) => tick <= low * 0.9) ?? 0.5,
      TICKS.find((tick) => tick >= high * 1.05) ?? high,
    ],
  };
}

const xChannel = (data: WhatIfSizesData, scales: Scales, words: PlanChartWords) => ({
  field: "expected",
  type: "quantitative" as const,
  scale: { domain: [...scales.expected], nice: false, zero: false },
  axis: {
    values: [...new Set(data.cells.flatMap(({ expected }) => (expected === null ? [] : [expected])))],
    labelExpr: "format(datum.value * 100, '.6~r')",
    title: words.whatIfExpected,
    titleAnchor: "start" as const,
    titlePadding: 10,
    tickRound: false,
  },
});

const yChannel = (scales: Scales) => ({
  field: "people",
  type: "quantitative" as const,
  scale: { type: "log" as const, domain: [...scales.people], nice: false },
  axis: {
    values: TICKS.filter((tick) => tick >= scales.people[0] && tick <= scales.people[1]),
    format: ",d",
    title: null,
  },
});

function isPlan({ threshold }: Point, { plan }: WhatIfSizesData): boolean {
  return threshold === plan.threshold;
}

function linesOf(
  points: readonly Point[],
  data: WhatIfSizesData,
  scales: Scales,
  words: PlanChartWords,
): Layer[] {
  const thresholds = [...new Set(points.map(({ threshold }) => threshold))];
  const [x, y] = [xChannel(data, scales, words), yChannel(scales)];
  const layers = thresholds.flatMap((threshold): Layer[] => {
    const values = points
      .filter((point) => point.threshold === threshold)
      .map(({ expected, people }) => ({ expected, people, threshold }));
    const strong = threshold === data.plan.threshold;
    const color = strong ? deep : muted;
    return [
      {
        data: { values },
        mark: { type: "line", color, strokeWidth: strong ? 2.2 : 1.2 },
        encoding: { x, y },
      },
      {
        data: { values },
        mark: {
          type: "point",
          filled: true,
          shape: "circle",
          size: 34,
          fill: color,
          stroke: paper,
          opacity: 1,
        },
        encoding: { x, y },
      },
    ];
  });
  const frame: Layer = {
    data: { values: [{ foot: 0 }] },
    mark: { type: "rule", color: rule },
    encoding: { x: { value: 0 }, x2: { value: WIDTH }, y: { value: HEIGHT } },
  };
  return layers.length === 0 ? [frame] : layers;
}

function planRing(
  points: readonly Point[],
  data: WhatIfSizesData,
  scales: Scales,
  words: PlanChartWords,
): Layer[] {
  const own = points.find((point) => isPlan(point, data) && point.expected === data.plan.expected);
  if (own === undefined) return [];
  const [x, y] = [xChannel(data, scales, words), yChannel(scales)];
  const values = [{ ...own, words: words.plan(peopleWords(own.people)) }];
  const text = planLabel(points, own, data.direction);
  return [
    {
      data: { values },
      mark: { type: "point", shape: "circle", size: 150, stroke: ink, strokeWidth: 1.4, filled: false },
      encoding: { x, y },
    },
    {
      data: { values },
      mark: { type: "text", ...text, color: paper, stroke: paper, strokeWidth: 4 },
      encoding: { x, y, text: { field: "words" } },
    },
    {
      data: { values },
      mark: { type: "text", ...text, color: ink },
      encoding: { x, y, text: { field: "words" } },
    },
  ];
}

/** Beside the ring, on the side of the line that is free: it falls under "at least", rises under "at most". */
function planLabel(points: readonly Point[], own: Point, direction: WhatIfSizesData["direction"]) {
  const last = points.every(
    ({ threshold, expected }) => threshold !== own.threshold || expected <= own.expected,
  );
  const above = (direction === "at_least") !== last;
  return {
    align: last ? ("right" as const) : ("left" as const),
    baseline: above ? ("bottom" as const) : ("top" as const),
    dx: last ? -9 : 9,
    dy: above ? -6 : 7,
    fontWeight: 600 as const,
  };
}

/** The criterion of each line beside its end, moved apart where ends are close. */
function lineNames(
  points: readonly Point[],
  data: WhatIfSizesData,
  scales: Scales,
  words: PlanChartWords,
): Layer[] {
  const span = Math.log(scales.people[1] / scales.people[0]);
  const high = (people: number) => HEIGHT * (1 - Math.log(people / scales.people[0]) / span);
  const across = (share: number) =>
    (WIDTH * (share - scales.expected[0])) / (scales.expected[1] - scales.expected[0]);
  const sign = data.direction === "at_least" ? "\u2265" : "\u2264";
  const ends = [...new Set(points.map(({ threshold }) => threshold))]
    .flatMap((threshold) => {
      const mine = points.filter((point) => point.threshold === threshold);
      const end = mine.reduce(
        (far, point) => (point.expected > far.expected ? point : far),
        mine[0] as Point,
      );
      return [{ threshold, x: across(end.expected), y: high(end.people) }];
    })
    .sort((one, other) => one.y - other.y);
  let floor = Number.NEGATIVE_INFINITY;
  return ends.map(({ threshold, x, y }) => {
    const at = Math.max(y, floor);
    floor = at + LINE_ROOM;
    const text = words.whatIfLine(`${sign}\u00a0${signed(threshold)}`);
    const strong = threshold === data.plan.threshold;
    const room = WIDTH + 140 - textWidth(text, LABEL_SIZE, strong ? "bold" : "normal");
    return wordsAt(text, Math.min(x + 12, room), at + 4, { color: strong ? deep : muted, bold: strong });
  });
}

function inWords(data: WhatIfSizesData, points: readonly Point[], words: PlanChartWords): string {
  const never = data.cells.filter(({ stays }) => stays === null);
  return [
    ...points.map(({ expected, threshold, people }) =>
      words.whatIfPoint(signed(expected), signed(threshold), peopleWords(people)),
    ),
    ...never.flatMap(({ expected, threshold }) =>
      expected === null || threshold === null
        ? []
        : [words.neverReached(signed(expected), signed(threshold))],
    ),
  ].join(" ");
}
