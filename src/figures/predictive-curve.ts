import type { Predictive } from "../evaluation/document.ts";
import { curveNames } from "./curve-names.ts";
import { LIGHT_INKS } from "./inks.ts";
import { estimatedPercent, statedPercent } from "./numbers.ts";
import {
  CURVE_HEIGHT,
  CURVE_WIDTH,
  type Domain,
  MEASURES,
  prevalenceDomain,
  prevalenceTicks,
  within,
  yChannel,
} from "./prevalence-scale.ts";
import {
  flagsOf,
  LANE,
  type Programme,
  programmePoints,
  programmeRules,
  programmeValues,
  TITLE_LEFT,
} from "./programme-marks.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { CHART_WORDS, type ChartWords } from "./words.ts";

export interface PredictiveCurveData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The analyte as a reader knows it. */
  readonly analyte: string;
  /** Confidence level of the bands, a proportion. */
  readonly level: number;
  readonly curve: Predictive["curve"];
  readonly programmes: readonly Programme[];
  readonly words?: ChartWords;
}

const { ink, rule, deep, pale } = LIGHT_INKS;

/**
 * How much a result can be trusted as prevalence changes: predictive values with bands over
 * prevalence on a ratio scale, the programmes marked by rules with their names.
 *
 * Points without an estimate break the line; points without limits break the band. A programme with
 * prevalence 0 has no place on a ratio scale: it is named in the description instead.
 */
export function predictiveCurve(data: PredictiveCurveData): Specification {
  const words = data.words ?? CHART_WORDS;
  const drawn = data.programmes.filter((programme) => programme.prevalence > 0);
  const domain = prevalenceDomain(drawn);
  const flags = flagsOf(drawn, domain, words);
  const lanes = Math.max(0, ...flags.map((flag) => flag.lane + 1));
  const frame: Frame = {
    width: CURVE_WIDTH,
    height: CURVE_HEIGHT,
    top: 34 + lanes * LANE,
    right: 70,
    bottom: 50,
    left: 50,
  };
  const wording = {
    name: data.name,
    title: words.curveTitle(data.analyte),
    description: description(data, domain, words),
  };
  return layered(wording, frame, [
    ...bands(data, domain, words),
    ...programmeRules(drawn, flags),
    ...lines(data),
    ...programmePoints(drawn),
    ...programmeValues(drawn, domain),
    ...curveNames(within(data.curve, domain), domain, words),
    yTitle(words),
  ]);
}

function xChannel(domain: Domain, words: ChartWords) {
  return {
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
  };
}

function bands(data: PredictiveCurveData, domain: Domain, words: ChartWords): Layer[] {
  return [...MEASURES].reverse().map(
    (measure): Layer => ({
      data: {
        values: within(data.curve, domain).map((point) => ({
          prevalence: point.prevalence,
          lower: point[measure].upper === null ? null : point[measure].lower,
          upper: point[measure].lower === null ? null : point[measure].upper,
        })),
      },
      mark: { type: "area", color: measure === "ppv" ? pale : rule, opacity: measure === "ppv" ? 0.75 : 0.8 },
      encoding: {
        x: xChannel(domain, words),
        y: yChannel("lower"),
        y2: { field: "upper" },
      },
    }),
  );
}

function lines(data: PredictiveCurveData): Layer[] {
  return [...MEASURES].reverse().map(
    (measure): Layer => ({
      data: {
        values: data.curve
          .filter((point) => point.prevalence > 0)
          .map((point) => ({ prevalence: point.prevalence, value: point[measure].value })),
      },
      mark: {
        type: "line",
        clip: true,
        color: measure === "ppv" ? deep : ink,
        strokeWidth: measure === "ppv" ? 2.2 : 1.4,
        ...(measure === "npv" ? { strokeDash: [6, 3] } : {}),
      },
      encoding: { x: { field: "prevalence", type: "quantitative" }, y: yChannel("value") },
    }),
  );
}

function yTitle(words: ChartWords): Layer {
  return {
    data: { values: [{ words: words.predictiveValue }] },
    mark: { type: "text", align: "left", baseline: "alphabetic", color: ink },
    encoding: { x: { value: TITLE_LEFT }, y: { value: -14 }, text: { field: "words" } },
  };
}

function description(data: PredictiveCurveData, domain: Domain, words: ChartWords): string {
  const absent = data.programmes.filter((programme) => programme.prevalence <= 0);
  const show = (share: number | null) => estimatedPercent(share, words.nothingMeasured);
  return [
    words.curveDescription(statedPercent(domain.from), statedPercent(domain.to)),
    words.band(statedPercent(data.level)),
    ...data.programmes
      .filter((programme) => programme.prevalence > 0)
      .map(({ title, prevalence, ppv, npv }) =>
        words.atProgramme(title, statedPercent(prevalence), show(ppv.value), show(npv.value)),
      ),
    ...(absent.length > 0 ? [words.notDrawn(absent.map((programme) => programme.title).join(", "))] : []),
  ].join(" ");
}
