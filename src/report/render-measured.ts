import type { Pooled } from "../evaluation/document.ts";
import { POOL_CHART_WORDS } from "../figures/pool-words.ts";
import { summaryPlot } from "../figures/summary-plot.ts";
import type { Report } from "./context.ts";
import { nounOf, pooledFigure, pooledGroupTitle } from "./pooled-names.ts";
import type { NamedFigure } from "./render-reference.ts";

/** The charts of pooled groups, in the order of the page. */
export function pooledFigures(report: Report): NamedFigure[] {
  return report.evaluation.pooled.flatMap((pooled) => summaryPlotOf(report, pooled));
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

/** Only where both measures were pooled together, and their model may be read. */
function summaryPlotOf(report: Report, pooled: Pooled): NamedFigure[] {
  const { bivariate, preferred } = pooled;
  if (bivariate === null || preferred.sensitivity !== "bivariate") return [];
  const name = pooledFigure(pooled);
  const noun = nounOf(report, pooled.by.stratum);
  const levels = bivariate.covariate?.levels ?? [];
  const middle = (of: Pick<typeof bivariate.summary, "sensitivity" | "specificity">) =>
    placesOf([
      { sensitivity: of.sensitivity.proportion.value, specificity: of.specificity.proportion.value },
    ])[0] ?? null;
  const spec = summaryPlot({
    name,
    level: report.evaluation.study.interval.level,
    studies: pooled.groups.flatMap(({ label, level, people, sensitivity, specificity }) =>
      placesOf([{ sensitivity: sensitivity.value, specificity: specificity.value }]).map((place) => ({
        label: pooledGroupTitle(report, pooled, label),
        kind: levels.length === 0 ? null : level,
        people,
        ...place,
      })),
    ),
    kinds: levels.map((level) => ({ kind: level.label, summary: middle(level) })),
    summary: middle(bivariate.summary),
    confidence: placesOf(bivariate.regions.confidence),
    prediction: placesOf(bivariate.regions.prediction),
    curve: placesOf(bivariate.regions.curve),
    words: { ...POOL_CHART_WORDS, ...report.words.sites.chart(noun) },
  });
  return [{ name, spec }];
}
