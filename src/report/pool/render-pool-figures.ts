import type { Pooling } from "../../evaluation/pool/document.ts";
import { renderSpecification } from "../../figures/render.ts";
import { smallStudyFunnel } from "../../figures/small-study-funnel.ts";
import type { Specification } from "../../figures/specification.ts";
import { summaryPlot } from "../../figures/summary-plot.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { en, type Words } from "../words/en.ts";
import { SMALL_STUDY_FUNNEL, SUMMARY_PLOT } from "./figure-names.ts";
import { pInWords } from "./names.ts";

/**
 * Draws the charts of a pooling document, in the order in which its page shows them. The command line writes the
 * specifications to files and hands the drawings to `renderPool`.
 */
export async function renderPoolFigures(pooling: Pooling, _words: Words = en): Promise<RenderedFigure[]> {
  const named = [...plotOf(pooling), ...funnelOf(pooling)];
  const figures: RenderedFigure[] = [];
  for (const spec of named) {
    figures.push({ name: String(spec.name), spec, svg: await renderSpecification(spec) });
  }
  return figures;
}

interface MaybePlace {
  readonly sensitivity: number | null;
  readonly specificity: number | null;
}

function placesOf(points: readonly MaybePlace[]) {
  return points.flatMap(({ sensitivity, specificity }) =>
    sensitivity === null || specificity === null ? [] : [{ sensitivity, specificity }],
  );
}

function plotOf({ answer, bivariate, studies, file }: Pooling): Specification[] {
  if (answer.basis !== "bivariate") return [];
  const { regions, summary } = bivariate.values;
  const values = {
    sensitivity: summary.sensitivity.proportion.value,
    specificity: summary.specificity.proportion.value,
  };
  return [
    summaryPlot({
      name: SUMMARY_PLOT,
      level: file.level,
      studies: studies.flatMap(({ study, level, sensitivity, specificity }) => {
        const [place] = placesOf([{ sensitivity: sensitivity.value, specificity: specificity.value }]);
        if (place === undefined) return [];
        return [{ label: study, kind: level, people: sensitivity.total + specificity.total, ...place }];
      }),
      kinds: answer.levels.map((level) => {
        const [place] = placesOf([
          { sensitivity: level.sensitivity.summary.value, specificity: level.specificity.summary.value },
        ]);
        return { kind: level.level, summary: place ?? null };
      }),
      summary: placesOf([values])[0] ?? null,
      confidence: placesOf(regions.confidence),
      prediction: placesOf(regions.prediction),
      curve: placesOf(regions.curve),
    }),
  ];
}

function funnelOf({ smallStudy, studies: all, answer }: Pooling): Specification[] {
  const { list, line, points } = smallStudy.values;
  const studies = list.flatMap(({ label, logOddsRatio, effectivePeople }) => {
    if (logOddsRatio === null || effectivePeople === null) return [];
    const kind = all.find(({ study }) => study === label)?.level ?? null;
    return [{ label, logOddsRatio, effectivePeople, kind }];
  });
  if (studies.length < 2) return [];
  return [
    smallStudyFunnel({
      name: SMALL_STUDY_FUNNEL,
      studies,
      kinds: answer.levels.map(({ level }) => level),
      line: points.flatMap(({ inverseRootSize, logOddsRatio: { value, lower, upper } }) =>
        inverseRootSize === null || value === null || lower === null || upper === null
          ? []
          : [{ inverseRootSize, value, lower, upper }],
      ),
      slopeP: line.slopeP === null ? null : pInWords(line.slopeP),
    }),
  ];
}
