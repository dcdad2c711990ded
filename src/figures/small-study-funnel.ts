import { LIGHT_INKS } from "./inks.ts";
import { drawn } from "./numbers.ts";
import { words as wordsAt } from "./people-scale.ts";
import { POOL_CHART_WORDS, type PoolChartWords } from "./pool-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { byKind, studyLook } from "./study-looks.ts";

/** A study in the funnel. */
export interface FunnelStudy {
  readonly label: string;
  readonly logOddsRatio: number;
  readonly effectivePeople: number;
  /** Kind of study, one of `kinds`; `null`: none. */
  readonly kind: string | null;
}

export interface SmallStudyFunnelData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly studies: readonly FunnelStudy[];
  /** Kinds of study; none where there is no covariate. */
  readonly kinds: readonly string[];
  /** The line, from the largest study to the smallest; empty where there is none. */
  readonly line: readonly {
    readonly inverseRootSize: number;
    readonly value: number;
    readonly lower: number;
    readonly upper: number;
  }[];
  /** p-value of the slope as text; `null`: no line. */
  readonly slopeP: string | null;
  readonly words?: PoolChartWords;
}

const WIDTH = 560;
const HEIGHT = 260;
const { ink, pale } = LIGHT_INKS;
const RATIOS = [0.1, 1, 10, 100, 1000, 10_000, 100_000, 1_000_000];
const SIZES = [4, 6, 10, 15, 20, 30, 40, 60, 100, 200, 500, 1000, 2000, 5000, 10_000, 100_000];

/**
 * Studies by their diagnostic odds ratio and their effective number of people, the large ones above, with the line that
 * leans where small studies are more favourable.
 */
export function smallStudyFunnel(data: SmallStudyFunnelData): Specification {
  const words = data.words ?? POOL_CHART_WORDS;
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 34, right: 150, bottom: 50, left: 62 };
  const wording = {
    name: data.name,
    title: words.funnelTitle,
    description: [
      words.funnelDescription(data.studies.length),
      ...(data.line.length === 0 ? [] : [words.line]),
      ...(data.slopeP === null ? [] : [words.slope(data.slopeP)]),
    ].join(" "),
  };
  const scales = scalesOf(data, words);
  return layered(wording, frame, [
    band(data, scales),
    lineOf(data, scales),
    ...points(data, scales),
    ...legend(data),
    wordsAt(words.effectivePeople, -54, -16),
  ]);
}

type Scales = ReturnType<typeof scalesOf>;
const inverseRoot = (people: number) => 1 / Math.sqrt(people);

function scalesOf({ studies }: SmallStudyFunnelData, words: PoolChartWords) {
  const ratios = studies.map(({ logOddsRatio }) => logOddsRatio);
  const [least, most] = [Math.min(0, ...ratios) - 0.3, Math.max(Math.log(10), ...ratios) + 0.3];
  const roots = studies.map(({ effectivePeople }) => inverseRoot(effectivePeople));
  const [highest, deepest] = [Math.min(...roots) * 0.8, Math.max(...roots) * 1.06];
  const ticks = SIZES.map(inverseRoot).filter((tick) => tick >= highest && tick <= deepest);
  return {
    x: {
      type: "quantitative" as const,
      scale: { domain: [drawn(least), drawn(most)], nice: false, zero: false },
      axis: {
        title: words.oddsRatio,
        titleAnchor: "start" as const,
        titlePadding: 10,
        values: RATIOS.map(Math.log).filter((tick) => tick >= least && tick <= most),
        labelExpr: "format(round(exp(datum.value) * 10) / 10, ',~r')",
      },
    },
    y: {
      field: "inverseRootSize",
      type: "quantitative" as const,
      scale: { domain: [drawn(highest), drawn(deepest)], nice: false, reverse: true },
      axis: {
        title: null,
        values: spaced(ticks, deepest - highest),
        labelExpr: "format(round(1 / (datum.value * datum.value)), ',')",
      },
    },
  };
}

/** Ticks at least so far apart, pixels, that their words don't touch. */
function spaced(ticks: readonly number[], span: number): number[] {
  const kept: number[] = [];
  for (const tick of ticks) {
    const last = kept.at(-1);
    if (last === undefined || ((last - tick) * HEIGHT) / span >= 24) kept.push(tick);
  }
  return kept;
}

function band({ line }: SmallStudyFunnelData, { x, y }: Scales): Layer {
  return {
    data: {
      values: line.map(({ inverseRootSize, lower, upper }) => ({
        inverseRootSize: drawn(inverseRootSize),
        lower: drawn(lower),
        upper: drawn(upper),
      })),
    },
    mark: { type: "area", orient: "horizontal", color: pale, opacity: 0.45, clip: true },
    encoding: { x: { ...x, field: "lower" }, x2: { field: "upper" }, y },
  };
}

function lineOf({ line }: SmallStudyFunnelData, { x, y }: Scales): Layer {
  return {
    data: {
      values: line.map(({ inverseRootSize, value }, order) => ({
        inverseRootSize: drawn(inverseRootSize),
        value: drawn(value),
        order,
      })),
    },
    mark: { type: "line", stroke: ink, strokeWidth: 1.4, clip: true },
    encoding: { x: { ...x, field: "value" }, y, order: { field: "order" } },
  };
}

function points({ studies, kinds }: SmallStudyFunnelData, { x, y }: Scales): Layer[] {
  return byKind(studies, kinds).map(
    ({ at, mine }): Layer => ({
      data: {
        values: mine.map(({ label, logOddsRatio, effectivePeople }) => ({
          study: label,
          logOddsRatio: drawn(logOddsRatio),
          inverseRootSize: drawn(inverseRoot(effectivePeople)),
        })),
      },
      mark: { type: "point", filled: true, size: 60, ...studyLook(at) },
      encoding: { x: { ...x, field: "logOddsRatio" }, y },
    }),
  );
}

/** Which mark is which kind, to the right. */
function legend({ kinds }: SmallStudyFunnelData): Layer[] {
  return kinds.flatMap((kind, at): Layer[] => [
    {
      data: { values: [{}] },
      mark: { type: "point", filled: true, size: 60, ...studyLook(at) },
      encoding: { x: { value: WIDTH + 24 }, y: { value: 8 + at * 21 } },
    },
    wordsAt(kind, WIDTH + 36, 12 + at * 21),
  ]);
}
