import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { drawn } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import type { ReferenceChartWords } from "./reference-words.ts";
import type { Layer } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";
import type { Verdict } from "./verdict-grid.ts";

interface Point {
  readonly oddsRatio: number;
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly verdict: Verdict;
}

export interface VerificationCurveData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** What is judged, in words. */
  readonly criterion: string;
  /** What the y axis is, in words. */
  readonly measure: string;
  /** From the lowest odds ratio to the highest. */
  readonly points: readonly Point[];
  /** Where the verdict changes, ascending. */
  readonly borders: readonly {
    readonly oddsRatio: number;
    readonly below: Verdict;
    readonly above: Verdict;
  }[];
  readonly threshold: number;
  /** From the verified people alone. */
  readonly naive: number | null;
  readonly words?: ReferenceChartWords;
}

export const WIDTH = 500;
export const HEIGHT = 210;
/** The bar of verdicts above the plot. */
const BAR = { top: -40, bottom: -20 };
const { ink, deep, pale, paper } = LIGHT_INKS;
const FLOORS = [0.99, 0.98, 0.95, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0];

export interface Scales {
  readonly from: number;
  readonly to: number;
  readonly floor: number;
}

export function scalesOf({ points, threshold: asked, naive }: VerificationCurveData): Scales {
  const shares = points.flatMap(({ value, lower }) => (value === null ? [] : [lower ?? value]));
  const least = Math.min(asked, naive ?? 1, ...shares);
  return {
    from: Math.min(0.5, ...points.map(({ oddsRatio }) => oddsRatio)),
    to: Math.max(2, ...points.map(({ oddsRatio }) => oddsRatio)),
    floor: FLOORS.find((floor) => floor < least - (1 - floor) * 0.04) ?? 0,
  };
}

/** Pixels from the left. */
export const across = (oddsRatio: number, { from, to }: Scales) =>
  (WIDTH * Math.log(Math.min(to, Math.max(from, oddsRatio)) / from)) / Math.log(to / from);
export const height = (share: number, { floor }: Scales) => HEIGHT * (1 - (share - floor) / (1 - floor));

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly verdict: Verdict;
}

export function stretchesOf({ borders, points }: VerificationCurveData, { from, to }: Scales): Stretch[] {
  const cuts = [from, ...borders.map(({ oddsRatio }) => oddsRatio), to];
  return cuts.slice(0, -1).map((start, place) => ({
    from: start,
    to: cuts[place + 1] ?? to,
    verdict:
      borders[place]?.below ??
      borders.at(-1)?.above ??
      points.find(({ oddsRatio }) => oddsRatio >= 1)?.verdict ??
      "not_estimable",
  }));
}

/** The bar of verdicts, and a line down through the plot wherever it is cut. */
export function stretches(data: VerificationCurveData, scales: Scales, words: ReferenceChartWords): Layer[] {
  const all = stretchesOf(data, scales);
  const boxes = all.map((stretch) => ({
    ...stretch,
    words: words.verdicts[stretch.verdict],
    left: across(stretch.from, scales),
    right: across(stretch.to, scales),
  }));
  return [
    {
      data: {
        values: boxes.map(({ from, to, verdict, left, right }) => ({ from, to, verdict, left, right })),
      },
      mark: { type: "rect", stroke: deep, strokeWidth: 1, fill: paper, opacity: 1 },
      encoding: {
        x: { field: "left", type: "quantitative", scale: null, axis: null },
        x2: { field: "right" },
        y: { value: BAR.top },
        y2: { value: BAR.bottom },
        fill: { condition: { test: "datum.verdict === 'met'", value: pale }, value: paper },
      },
    },
    ...boxes.slice(1).map(
      ({ left, from }): Layer => ({
        data: { values: [{ oddsRatio: drawn(from) }] },
        mark: { type: "rule", color: ink, strokeWidth: 1, strokeDash: [2, 2] },
        encoding: { x: { value: left }, y: { value: BAR.bottom }, y2: { value: HEIGHT } },
      }),
    ),
    ...verdictWords(boxes),
  ];
}

interface Named extends Stretch {
  readonly words: string;
  readonly left: number;
  readonly right: number;
}

/** Each verdict's word in its stretch; above it where the stretch is too narrow. */
function verdictWords(boxes: readonly Named[]): Layer[] {
  let free = 0;
  return boxes.map(({ words: text, left, right, verdict }) => {
    const width = textWidth(text, LABEL_SIZE, "bold");
    const fits = width + 8 <= right - left;
    const middle = (left + right) / 2;
    const x = fits ? middle : Math.max(free + width / 2, middle);
    if (!fits) free = x + width / 2 + 8;
    return wordsAt(text, x, fits ? BAR.bottom - 6 : BAR.top - 5, {
      align: "center",
      bold: verdict === "met" || verdict === "not_met",
    });
  });
}
