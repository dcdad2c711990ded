/** The words of the figures about the reference, in English. A translation is another object of the same shape. */
export interface ReferenceChartWords {
  readonly verdicts: Readonly<Record<"met" | "not_met" | "undecided" | "not_estimable", string>>;
  readonly referenceSensitivity: string;
  readonly referenceSpecificity: string;
  readonly tippingTitle: (criterion: string) => string;
  readonly tippingDescription: string;
  readonly stated: (sensitivity: string, specificity: string) => string;
  readonly neverErrs: string;
  readonly statedIs: (sensitivity: string, specificity: string, verdict: string) => string;
  readonly statedRange: (sensitivity: string, specificity: string) => string;
  readonly corner: (sensitivity: string, specificity: string, verdict: string) => string;
  readonly oddsRatio: string;
  readonly curveTitle: (criterion: string) => string;
  readonly curveDescription: string;
  readonly measureAxis: (measure: string, from: string) => string;
  readonly asked: (threshold: string) => string;
  readonly corrected: string;
  readonly verifiedOnly: string;
  readonly stretch: (from: string, to: string, verdict: string) => string;
  readonly pointAt: (odds: string, estimate: string) => string;
  readonly densitiesTitle: (model: string) => string;
  readonly densitiesDescription: string;
  readonly before: string;
  readonly after: string;
  readonly density: (parameter: string, before: string, after: string) => string;
  readonly percentAxis: string;
  readonly tracesTitle: (model: string) => string;
  readonly tracesDescription: (shown: number) => string;
  readonly ranksTitle: (model: string) => string;
  readonly ranksDescription: string;
  readonly chain: (number: string) => string;
  readonly evenly: string;
  readonly rankRange: (parameter: string, least: string, most: string, even: string) => string;
  readonly traceRange: (parameter: string, lower: string, upper: string) => string;
  readonly nothing: string;
}

export const REFERENCE_CHART_WORDS: ReferenceChartWords = {
  verdicts: {
    met: "met",
    not_met: "not met",
    undecided: "undecided",
    not_estimable: "does not fit the table",
  },
  referenceSensitivity: "Sensitivity of the reference (%)",
  referenceSpecificity: "Specificity of the reference (%)",
  tippingTitle: (criterion) => `Verdict by what is true of the reference: ${criterion}`,
  tippingDescription:
    "Each place is a supposed reference, its specificity to the right and its sensitivity upwards; areas show the verdict that follows.",
  stated: (sensitivity, specificity) => `stated: ${sensitivity} / ${specificity}`,
  neverErrs: "if the reference never erred",
  statedIs: (sensitivity, specificity, verdict) =>
    `As stated, sensitivity ${sensitivity} and specificity ${specificity}: ${verdict}.`,
  statedRange: (sensitivity, specificity) =>
    `Box: the range stated, sensitivity ${sensitivity}, specificity ${specificity}.`,
  corner: (sensitivity, specificity, verdict) =>
    `Sensitivity ${sensitivity}, specificity ${specificity}: ${verdict}.`,
  oddsRatio: "Odds of being verified: with the condition over without it (ratio scale)",
  curveTitle: (criterion) => `If who was verified hung on the condition itself: ${criterion}`,
  curveDescription:
    "Line: the corrected estimate as the odds ratio of verification rises; band: its interval; the bar above gives the verdict.",
  measureAxis: (measure, from) =>
    from === "0" ? `${measure} (%)` : `${measure} (%), scale begins at ${from}`,
  asked: (threshold) => `asked: ${threshold}`,
  corrected: "corrected",
  verifiedOnly: "verified people only",
  stretch: (from, to, verdict) => `From ${from} to ${to}: ${verdict}.`,
  pointAt: (odds, estimate) => `At ${odds}: ${estimate}.`,
  densitiesTitle: (model) => `What was believed, and what the data made of it: ${model}`,
  densitiesDescription:
    "One panel for each quantity. Dashed line: belief before the data; filled curve: belief after them.",
  before: "believed before the data",
  after: "after the data",
  density: (parameter, before, after) => `${parameter}: before ${before}, after ${after}.`,
  percentAxis: "scales in %",
  tracesTitle: (model) => `Paths of the chains: ${model}`,
  tracesDescription: (shown) =>
    `One row for each of the ${shown} quantities that mix worst, one panel for each chain: the values drawn, in their order. The shaded band holds 95 % of all draws.`,
  ranksTitle: (model) => `Ranks of the draws by chain: ${model}`,
  ranksDescription:
    "One row for each quantity, one panel for each chain: how many of its draws fall in each twentieth of all draws. The dotted line is an even share.",
  chain: (number) => `chain ${number}`,
  evenly: "even share",
  rankRange: (parameter, least, most, even) =>
    `${parameter}: between ${least} and ${most} draws in a twentieth, ${even} if even.`,
  traceRange: (parameter, lower, upper) => `${parameter}: drawn values from ${lower} to ${upper}.`,
  nothing: "no estimate",
};
