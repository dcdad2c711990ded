import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { LIGHT_INKS } from "./inks.ts";
import { logit, logitChannel, logitDomain, logitPixel } from "./logit-scale.ts";
import { textWidth, wrapText } from "./measure-text.ts";
import { drawn, estimatedPercent, statedPercent } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { CURVE_HEIGHT, CURVE_WIDTH, type Domain, prevalenceTicks } from "./prevalence-scale.ts";
import { flagsOf, LANE, type Programme, programmeRules, TITLE_LEFT } from "./programme-marks.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { spreadLabels } from "./spread-labels.ts";
import { between, heightOf, type Line, linesOf, type Point, shownHeight } from "./stepwise-lines.ts";
import { LABEL_SIZE } from "./theme.ts";
import { CHART_WORDS } from "./words.ts";

export interface StepwisePredictiveData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly algorithm: string;
  /** The kits whose results are reactive one after the other. */
  readonly kits: readonly string[];
  readonly points: readonly Point[];
  /** PPV wanted, a proportion. */
  readonly target: number | null;
  readonly channels: readonly { readonly title: string; readonly prevalence: number }[];
  readonly words?: AlgorithmChartWords;
}

const WIDTH = CURVE_WIDTH;
const HEIGHT = CURVE_HEIGHT;
const RIGHT = 190;
const LABEL_LINE = 14;
const { ink, muted, deep, amber, paper } = LIGHT_INKS;

/**
 * What a positive result is worth after each reactive result, over prevalence on a ratio scale; the value is on
 * a scale stretched towards 100 %, on which a kit lifts the whole line by the same height. The channels are
 * marked, and what would hold if the kits erred independently is dashed.
 */
export function stepwisePredictive(data: StepwisePredictiveData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const points = data.points.filter(({ prevalence }) => prevalence > 0);
  const domain: Domain = {
    from: Math.min(0.5, ...points.map(({ prevalence }) => prevalence)),
    to: Math.max(0.001, ...points.map(({ prevalence }) => prevalence)),
  };
  const lines = linesOf(data.kits, points, words);
  const shares = logitDomain(
    lines.flatMap(({ of }) => points.flatMap((point) => [of(point) ?? 0.5])).concat(data.target ?? []),
  );
  const channels = channelsOf(data, domain);
  const flags = flagsOf(channels, domain, { ...CHART_WORDS, predictiveValue: "" });
  const lanes = Math.max(0, ...flags.map(({ lane }) => lane + 1));
  const frame: Frame = {
    width: WIDTH,
    height: HEIGHT,
    top: 40 + lanes * LANE,
    right: RIGHT,
    bottom: 50,
    left: 54,
  };
  const wording = {
    name: data.name,
    title: words.predictiveTitle(data.algorithm),
    description: inWords(data, lines, domain, words),
  };
  return layered(wording, frame, [
    ...targetRule(data.target, shares),
    ...programmeRules(channels, flags),
    ...lines.map((line) => drawLine(line, points, domain, shares, words)),
    ...marks(lines, points, data, domain, shares),
    ...names(lines, points, data.target, shares, words),
    wordsAt(words.predictiveAxis, TITLE_LEFT, -18 - lanes * LANE),
  ]);
}

const xChannel = (domain: Domain, words: AlgorithmChartWords) => ({
  field: "prevalence",
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

function drawLine(
  { of, kind }: Line,
  points: readonly Point[],
  domain: Domain,
  shares: readonly [number, number],
  words: AlgorithmChartWords,
): Layer {
  return {
    data: {
      values: points.map((point) => {
        const share = of(point);
        return share === null
          ? { prevalence: drawn(point.prevalence), share, logit: null }
          : { prevalence: drawn(point.prevalence), share: drawn(share), logit: shownHeight(share) };
      }),
    },
    mark: {
      type: "line",
      clip: true,
      color: kind === "whole" ? deep : kind === "independent" ? ink : muted,
      strokeWidth: kind === "whole" ? 2.4 : 1.3,
      ...(kind === "independent" ? { strokeDash: [6, 3] } : {}),
    },
    encoding: { x: xChannel(domain, words), y: logitChannel("logit", shares) },
  };
}

function targetRule(target: number | null, shares: readonly [number, number]): Layer[] {
  if (target === null) return [];
  return [
    {
      data: { values: [{ logit: logit(target) }] },
      mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
      encoding: { y: logitChannel("logit", shares), x: { value: 0 }, x2: { value: WIDTH } },
    },
  ];
}

/** As the flags show them, with two digits. */
function channelsOf({ channels }: StepwisePredictiveData, domain: Domain): Programme[] {
  const nothing = { value: null, lower: null, upper: null };
  return channels
    .filter(({ prevalence }) => prevalence >= domain.from && prevalence <= domain.to)
    .map(({ title, prevalence }) => {
      const shown = Number(prevalence.toPrecision(2));
      return { title, prevalence: shown, ppv: nothing, npv: nothing } as Programme;
    });
}

/** Dots where a channel's rule meets the line of the whole algorithm. */
function marks(
  lines: readonly Line[],
  points: readonly Point[],
  data: StepwisePredictiveData,
  domain: Domain,
  shares: readonly [number, number],
): Layer[] {
  const channels = data.channels.filter(
    (one) => one.prevalence >= domain.from && one.prevalence <= domain.to,
  );
  const whole = lines.find(({ kind }) => kind === "whole");
  if (whole === undefined || channels.length === 0) return [];
  const values = channels.flatMap(({ prevalence, title }) => {
    const share = between(points, whole, prevalence);
    const height = heightOf(share);
    return height === null ? [] : [{ channel: title, prevalence, share, logit: height }];
  });
  return [
    {
      data: { values },
      mark: {
        type: "point",
        filled: true,
        shape: "circle",
        size: 46,
        fill: deep,
        stroke: paper,
        strokeWidth: 1.2,
        opacity: 1,
      },
      encoding: {
        x: { field: "prevalence", type: "quantitative" },
        y: logitChannel("logit", shares),
      },
    },
  ];
}

/** The name of each line, and of the target, beside its right end. */
function names(
  lines: readonly Line[],
  points: readonly Point[],
  target: number | null,
  shares: readonly [number, number],
  words: AlgorithmChartWords,
): Layer[] {
  const ends = lines.flatMap(({ name, of, kind }) => {
    const last = points.map(of).findLast((share) => share !== null) ?? null;
    if (last === null) return [];
    const color = kind === "whole" ? deep : kind === "independent" ? ink : muted;
    return [{ name, color, bold: kind === "whole", y: logitPixel(last, shares, HEIGHT) }];
  });
  const all = [
    ...ends,
    ...(target === null
      ? []
      : [
          {
            name: words.target(`${statedPercent(target)}\u202f%`),
            color: amber,
            bold: false,
            y: logitPixel(target, shares, HEIGHT),
          },
        ]),
  ];
  const heights = spreadLabels(
    all.map(({ y }) => y),
    LABEL_LINE + 1,
    0,
    HEIGHT - 4,
  );
  return all.map(({ name, color, bold }, at) =>
    wordsAt(fitted(name, bold), WIDTH + 10, (heights[at] ?? 0) + 4, { color, bold }),
  );
}

/** As much of a name as has room beside the plot. */
function fitted(name: string, bold: boolean): string {
  const weight = bold ? "bold" : "normal";
  if (textWidth(name, LABEL_SIZE, weight) <= RIGHT - 12) return name;
  return `${wrapText(name, RIGHT - 24, LABEL_SIZE, weight)[0] ?? ""}…`;
}

function inWords(
  data: StepwisePredictiveData,
  lines: readonly Line[],
  domain: Domain,
  words: AlgorithmChartWords,
): string {
  const points = data.points.filter(({ prevalence }) => prevalence > 0);
  return [
    words.predictiveDescription(statedPercent(domain.from), statedPercent(domain.to)),
    ...data.channels.flatMap(({ title, prevalence }) =>
      prevalence < domain.from || prevalence > domain.to
        ? []
        : lines.flatMap((line) => {
            const share = between(points, line, prevalence);
            return share === null ? [] : [words.lineAt(line.name, title, estimatedPercent(share, ""))];
          }),
    ),
  ].join(" ");
}
