/** The words of the charts of pooled studies, in English. A translation is another object of the same shape. */
export interface PoolChartWords {
  readonly sensitivity: string;
  readonly specificity: string;
  readonly plotTitle: string;
  readonly plotDescription: (studies: number) => string;
  readonly summaryAt: (sensitivity: string, specificity: string) => string;
  readonly summary: string;
  readonly kindSummary: string;
  readonly confidence: (level: string) => string;
  readonly prediction: (level: string) => string;
  readonly curve: string;
  readonly study: string;
  readonly kind: (kind: string) => string;
  readonly size: string;
  readonly funnelTitle: string;
  readonly funnelDescription: (studies: number) => string;
  readonly oddsRatio: string;
  readonly effectivePeople: string;
  readonly line: string;
  readonly slope: (p: string) => string;
}

export const POOL_CHART_WORDS: PoolChartWords = {
  sensitivity: "Sensitivity (%)",
  specificity: "Specificity (%), falling to the right",
  plotTitle: "Sensitivity against specificity of the studies, with the summary point",
  plotDescription: (studies) =>
    `Each of ${studies} studies is a point by its specificity (falling to the right) and its sensitivity, the larger the more people it has.`,
  summaryAt: (sensitivity, specificity) =>
    `The summary point is at sensitivity ${sensitivity} and specificity ${specificity}.`,
  summary: "summary point of all studies",
  kindSummary: "summary point of one kind",
  confidence: (level) => `${level} % confidence region of all studies`,
  prediction: (level) => `${level} % prediction region: a new place`,
  curve: "summary curve",
  study: "a study",
  kind: (kind) => kind,
  size: "the larger, the more people",
  funnelTitle: "Diagnostic odds ratio against the size of the study",
  funnelDescription: (studies) =>
    `Each of ${studies} studies is a point by its diagnostic odds ratio (ratio scale, to the right) and its effective number of people (upwards, as one over the square root).`,
  oddsRatio: "Diagnostic odds ratio, ratio scale",
  effectivePeople: "Effective people",
  line: "Line: regression weighted by effective people, with its interval.",
  slope: (p) => `Slope: p ${p}.`,
};
