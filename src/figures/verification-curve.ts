import { LIGHT_INKS } from "./inks.ts";
import { drawn, estimatedRange, statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { REFERENCE_CHART_WORDS, type ReferenceChartWords } from "./reference-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { spreadLabels } from "./spread-labels.ts";
import {
  across,
  HEIGHT,
  height,
  type Scales,
  scalesOf,
  stretches,
  stretchesOf,
  type VerificationCurveData,
  WIDTH,
} from "./verdict-stretches.ts";

export type { VerificationCurveData } from "./verdict-stretches.ts";

const RIGHT = 160;
const { ink, muted, deep, pale, paper, amber } = LIGHT_INKS;
const TICKS = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 4, 5, 10, 20, 50, 100, 200, 500, 1000,
];

/**
 * The corrected measure if who was verified hung on the condition itself: its line and band over the odds ratio
 * of verification, and above it the verdict, cut where it changes.
 */
export function verificationCurve(data: VerificationCurveData): Specification {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const scales = scalesOf(data);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 76, right: RIGHT, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.curveTitle(data.criterion),
    description: inWords(data, scales, words),
  };
  return layered(wording, frame, [
    band(data, scales),
    threshold(data, scales),
    ...stretches(data, scales, words),
    line(data, scales, words),
    ...atOne(data, scales, words),
    ...endLabels(data, scales, words),
    wordsAt(words.measureAxis(data.measure, statedPercent(scales.floor)), TITLE_LEFT, -60),
  ]);
}

const yScale = ({ floor }: Scales) => ({
  field: "value",
  type: "quantitative" as const,
  scale: { domain: [floor, 1], nice: false, zero: false },
  axis: { tickCount: 5, labelExpr: "format(datum.value * 100, '.6~r')", title: null },
});

const xScale = (scales: Scales, words: ReferenceChartWords) => ({
  field: "oddsRatio",
  type: "quantitative" as const,
  scale: { type: "log" as const, domain: [scales.from, scales.to], nice: false },
  axis: {
    values: ticksOf(scales),
    labelExpr: "datum.value < 1 ? '1/' + format(1 / datum.value, '.4~g') : format(datum.value, ',.4~g')",
    title: words.oddsRatio,
    titlePadding: 10,
    titleAnchor: "start" as const,
    tickRound: false,
  },
});

/** Ticks at odds that are read easily, as many as there is room for. */
function ticksOf(scales: Scales): number[] {
  const inside = TICKS.filter((tick) => tick >= scales.from * 0.999 && tick <= scales.to * 1.001);
  const kept: number[] = [];
  for (const tick of [
    1,
    ...inside.toSorted((one, other) => Math.abs(Math.log(one)) - Math.abs(Math.log(other))),
  ]) {
    if (kept.every((other) => Math.abs(across(other, scales) - across(tick, scales)) >= 34)) kept.push(tick);
  }
  return kept.toSorted((one, other) => one - other);
}

function band({ points }: VerificationCurveData, scales: Scales): Layer {
  return {
    data: {
      values: points.flatMap(({ oddsRatio, lower, upper }) =>
        lower === null || upper === null
          ? []
          : [{ oddsRatio: drawn(oddsRatio), value: drawn(lower), upper: drawn(upper) }],
      ),
    },
    mark: { type: "area", color: pale, opacity: 0.75 },
    encoding: {
      x: { field: "oddsRatio", type: "quantitative", scale: { type: "log" } },
      y: yScale(scales),
      y2: { field: "upper" },
    },
  };
}

function line({ points }: VerificationCurveData, scales: Scales, words: ReferenceChartWords): Layer {
  return {
    data: {
      values: points.map(({ oddsRatio, value, verdict }) => ({
        oddsRatio: drawn(oddsRatio),
        value: value === null ? null : drawn(value),
        verdict,
      })),
    },
    mark: { type: "line", color: deep, strokeWidth: 1.8 },
    encoding: { x: xScale(scales, words), y: yScale(scales) },
  };
}

function threshold({ threshold: asked }: VerificationCurveData, scales: Scales): Layer {
  return {
    data: { values: [{ value: asked }] },
    mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
    encoding: { y: yScale(scales), x: { value: 0 }, x2: { value: WIDTH } },
  };
}

/** The estimate where verification does not hang on the condition: a ring, and a dotted line down to the axis. */
function atOne({ points }: VerificationCurveData, scales: Scales, words: ReferenceChartWords): Layer[] {
  const found = points.find(({ oddsRatio }) => oddsRatio === 1);
  if (found === undefined || found.value === null) return [];
  return [
    {
      data: { values: [{ oddsRatio: 1, value: found.value }] },
      mark: { type: "rule", color: muted, strokeWidth: 1, strokeDash: [1.5, 2.5] },
      encoding: {
        x: xScale(scales, words),
        y: { value: height(found.value, scales) },
        y2: { value: HEIGHT },
      },
    },
    {
      data: { values: [{ oddsRatio: 1, value: drawn(found.value) }] },
      mark: {
        type: "point",
        shape: "circle",
        filled: true,
        size: 58,
        fill: deep,
        stroke: paper,
        strokeWidth: 1.2,
        opacity: 1,
      },
      encoding: { x: xScale(scales, words), y: yScale(scales) },
    },
  ];
}

/** Names at the right end: the corrected line, what is asked, what the verified people alone say. */
function endLabels(data: VerificationCurveData, scales: Scales, words: ReferenceChartWords): Layer[] {
  const last = data.points.findLast(({ value }) => value !== null)?.value;
  const naive = data.naive;
  const names = [
    ...(last === undefined || last === null ? [] : [{ text: words.corrected, at: last, color: deep }]),
    { text: words.asked(`${statedPercent(data.threshold)}\u202f%`), at: data.threshold, color: amber },
    ...(naive === null ? [] : [{ text: words.verifiedOnly, at: naive, color: ink }]),
  ];
  const heights = spreadLabels(
    names.map(({ at }) => height(at, scales)),
    15,
    0,
    HEIGHT,
  );
  const mark: Layer[] =
    naive === null
      ? []
      : [
          {
            data: { values: [{ value: drawn(naive) }] },
            mark: { type: "rule", color: ink, strokeWidth: 1.6 },
            encoding: { x: { value: WIDTH - 8 }, x2: { value: WIDTH + 5 }, y: yScale(scales) },
          },
        ];
  return [
    ...mark,
    ...names.map(({ text, color }, place) => wordsAt(text, WIDTH + 10, (heights[place] ?? 0) + 4, { color })),
  ];
}

function inWords(data: VerificationCurveData, scales: Scales, words: ReferenceChartWords): string {
  const odds = (value: number) =>
    value < 1 ? `1/${Number((1 / value).toPrecision(3))}` : String(Number(value.toPrecision(3)));
  return [
    words.curveDescription,
    ...stretchesOf(data, scales).map(({ from, to, verdict }) =>
      words.stretch(odds(from), odds(to), words.verdicts[verdict]),
    ),
    ...[data.points[0], data.points.find(({ oddsRatio }) => oddsRatio === 1), data.points.at(-1)].flatMap(
      (point) =>
        point === undefined
          ? []
          : [words.pointAt(odds(point.oddsRatio), estimatedRange(point, words.nothing))],
    ),
  ].join(" ");
}
