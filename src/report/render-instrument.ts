import type { Intensity, Panel } from "../evaluation/document.ts";
import { calibrationPlot } from "../figures/calibration-plot.ts";
import { type CurveMark, curveOverCutoffs } from "../figures/curve-over-cutoffs.ts";
import { doseCurve } from "../figures/dose-curve.ts";
import { intensityByMinutes } from "../figures/intensity-by-minutes.ts";
import { intensityByTruth, type MarkedCutoff } from "../figures/intensity-by-truth.ts";
import type { Report } from "./context.ts";
import type * as formats from "./formats.ts";
import {
  type CutoffLine,
  cutoffLines,
  instrumentFigure,
  instrumentTitle,
  intensityChartWords,
  panelFigure,
  readingText,
} from "./instrument-names.ts";
import type { NamedFigure } from "./render-reference.ts";

/** The charts of instruments and dilution panels, in the order of the page. */
export function instrumentFigures(report: Report): NamedFigure[] {
  const { intensities, panels } = report.evaluation;
  return [
    ...intensities.flatMap((measured) => [
      ...curveOf(report, measured),
      ...truthOf(report, measured),
      ...minutesOf(report, measured),
      ...calibrationOf(report, measured),
    ]),
    ...panels.flatMap((panel) => doseOf(report, panel)),
  ];
}

function commonOf(report: Report, measured: Intensity, kind: Parameters<typeof instrumentFigure>[0]) {
  return {
    name: instrumentFigure(kind, measured),
    of: instrumentTitle(report, measured),
    words: intensityChartWords(report, measured.analyte),
  };
}

function curveOf(report: Report, measured: Intensity): NamedFigure[] {
  const { curve } = measured;
  if (curve.area.value === null) return [];
  const common = commonOf(report, measured, "curve");
  const spec = curveOverCutoffs({
    ...common,
    level: report.evaluation.study.interval.level,
    points: curve.points.flatMap(({ sensitivity, specificity }) =>
      sensitivity.value === null || specificity.value === null
        ? []
        : [
            {
              sensitivity: sensitivity.value,
              specificity: specificity.value,
              lower: {
                sensitivity: sensitivity.lower ?? sensitivity.value,
                specificity: specificity.lower ?? specificity.value,
              },
              upper: {
                sensitivity: sensitivity.upper ?? sensitivity.value,
                specificity: specificity.upper ?? specificity.value,
              },
            },
          ],
    ),
    marks: cutoffLines(measured).flatMap((line) => markOf(line, measured, common.words)),
  });
  return [{ name: common.name, spec }];
}

function markOf(
  { kind, cutoff, reader, ...line }: CutoffLine,
  measured: Intensity,
  words: ReturnType<typeof intensityChartWords>,
): CurveMark[] {
  const [sensitivity, specificity] = [line.sensitivity.value, line.specificity.value];
  if (sensitivity === null || specificity === null) return [];
  const at = cutoff === null ? "" : `${readingText(cutoff)} ${measured.unit}`;
  const label = {
    stated: words.stated(at),
    chosen: words.chosen(at),
    expected: words.expected,
    eye: words.eye(reader),
  }[kind];
  const lower = {
    sensitivity: line.sensitivity.lower ?? sensitivity,
    specificity: line.specificity.lower ?? specificity,
  };
  return [{ kind, label, sensitivity, specificity, lower }];
}

function truthOf(report: Report, measured: Intensity): NamedFigure[] {
  const { distribution, unit, direction, stated, chosen } = measured;
  if (distribution.histogram.length === 0) return [];
  const common = commonOf(report, measured, "truth");
  const marked = (
    at: number,
    isStated: boolean,
    of: Pick<NonNullable<typeof stated>, "sensitivity" | "specificity">,
  ): MarkedCutoff => ({
    at,
    label: isStated ? common.words.stated(readingText(at)) : common.words.chosen(readingText(at)),
    stated: isStated,
    missed: of.sensitivity.total - of.sensitivity.count,
    falselyReactive: of.specificity.total - of.specificity.count,
  });
  const cutoff = chosen?.values.cutoff.value ?? null;
  const spec = intensityByTruth({
    ...common,
    unit,
    direction,
    scale: distribution.histogramScale,
    bars: distribution.histogram,
    groups: distribution.groups.map(({ truth, readings, p25, median, p75 }) => ({
      truth,
      people: readings,
      lower: p25,
      median,
      upper: p75,
    })),
    cutoffs: [
      ...(stated === null ? [] : [marked(stated.cutoff, true, stated)]),
      ...(chosen === null || cutoff === null ? [] : [marked(cutoff, false, chosen.values)]),
    ],
  });
  return [{ name: common.name, spec }];
}

function minutesOf(report: Report, measured: Intensity): NamedFigure[] {
  const { distribution, unit, stated, kit } = measured;
  const bands = (distribution.minutes?.bands ?? []).flatMap(
    ({ truth, from, to, readings, p25, median, p75 }) =>
      p25 === null || median === null || p75 === null
        ? []
        : [{ truth, from, to, people: readings, lower: p25, median, upper: p75 }],
  );
  if (bands.length === 0) return [];
  const common = commonOf(report, measured, "reading-minutes");
  const found = report.evaluation.kits.find(({ id }) => id === kit)?.reading_window;
  const spec = intensityByMinutes({
    ...common,
    unit,
    scale: distribution.histogramScale,
    window: found === undefined ? null : { from: found.from_minutes, to: found.to_minutes },
    bands,
    cutoff:
      stated === null ? null : { at: stated.cutoff, label: common.words.stated(readingText(stated.cutoff)) },
  });
  return [{ name: common.name, spec }];
}

function calibrationOf(report: Report, measured: Intensity): NamedFigure[] {
  const groups = (measured.calibration?.groups ?? []).flatMap(({ people, predicted, observed }) =>
    predicted === null || observed.value === null
      ? []
      : [
          {
            people,
            predicted,
            observed: observed.value,
            lower: observed.lower ?? observed.value,
            upper: observed.upper ?? observed.value,
          },
        ],
  );
  if (groups.length === 0) return [];
  const common = commonOf(report, measured, "calibration");
  return [{ name: common.name, spec: calibrationPlot({ ...common, groups }) }];
}

/** Rows of one concentration, of several lots or runs, are one dot. */
function doseOf(report: Report, panel: Panel): NamedFigure[] {
  const { values } = panel;
  if (values === null || values.rows.length === 0) return [];
  const sums = new Map<number, { reactive: number; tested: number }>();
  for (const { concentration, reactive } of values.rows) {
    if (concentration === null) continue;
    const sum = sums.get(concentration) ?? { reactive: 0, tested: 0 };
    sums.set(concentration, {
      reactive: sum.reactive + reactive.count,
      tested: sum.tested + reactive.total,
    });
  }
  const asked: formats.Limits | undefined = values.probit.concentrations.find(
    ({ probability }) => probability === panel.chance,
  )?.concentration;
  const name = panelFigure(panel);
  const spec = doseCurve({
    name,
    panel: panel.title,
    unit: panel.unit,
    level: report.evaluation.study.interval.level,
    chance: panel.chance,
    points: [...sums].map(([concentration, counts]) => ({ concentration, ...counts })),
    curve: values.probit.curve.flatMap(({ concentration, probability: { value, lower, upper } }) =>
      concentration === null || value === null ? [] : [{ concentration, value, lower, upper }],
    ),
    limit: asked === undefined || asked.value === null ? null : { ...asked, value: asked.value },
  });
  return [{ name, spec }];
}
