import { statedPercent, THIN } from "../../formats.ts";
import { listed } from "./plural.ts";

const studies = {
  lead: "What each study saw, with exact limits. Few people make a long bar, not a poor test.",
  caption: "Sensitivity and specificity of every study",
  study: "Study",
  titles: { sensitivity: "Sensitivity, %", specificity: "Specificity, %" },
  summary: "All studies",
  summaryOf: (kind: string) => `Summary, ${kind}`,
  noKind: "kind not said",
  howToRead: (summary: boolean, kinds: boolean, criterion: boolean) =>
    summary
      ? `Dotted rule: the summary${kinds ? " of the kind" : ""}. In the shaded rows, thick bar: the summary's interval; thin bar: where the true value of a place not studied may lie.${criterion ? " Upright line: what was asked." : ""} A dash: nobody of that kind of people.`
      : "A dash: nobody of that kind of people.",
  alike: (name: string, p: string) => `p\u00a0${p} for ${name}`,
  alikeLead: (list: string) => `That all studies have one true value and scatter by chance alone: ${list}.`,
  share: (name: string, value: string) => `a ${name} of ${value}`,
  together: (parts: readonly string[]) =>
    `All people together, as if they came from one study, would give ${listed(parts)}: limits that take no account of how studies differ, and are too narrow for any other place.`,
};

const plot = {
  lead: "Each study is a point by what it saw. Studies that differ by their threshold lie along the curve; studies that differ in other ways scatter across it.",
  chart: "Sensitivity against specificity of the studies, with the summary point",
  caption: "The points of the summary plot",
  columns: {
    study: "Study",
    people: "People",
    sensitivity: "Sensitivity, %",
    specificity: "Specificity, %",
    shrunkenSensitivity: "… drawn in",
    shrunkenSpecificity: "… drawn in",
  },
  note: "Drawn in: the likeliest true value of that place, the other studies considered (empirical Bayes); its limits take the summary and the spread as known, and are somewhat narrow.",
  noPlot: "There is no summary point to draw.",
  ratiosLead: "At the summary point:",
  ratiosCaption: "Likelihood ratios at the summary point",
  ratioColumns: { measure: "Measure", value: "Value" },
  ratios: {
    positive: "Likelihood ratio of a reactive result",
    negative: "Likelihood ratio of a non-reactive result",
    diagnosticOdds: "Diagnostic odds ratio",
  },
  curveTitle: "The curve in figures",
  curveCaption: "Parameters of the model and of the summary curve",
  curveColumns: { parameter: "Parameter", value: "Value" },
  parameters: {
    sdSensitivity: "Between-study standard deviation, logit sensitivity",
    sdSpecificity: "Between-study standard deviation, logit specificity",
    correlation: "Between-study correlation of the two",
    shape: "Shape of the curve (0: symmetric)",
    accuracy: "Accuracy (mean log diagnostic odds ratio at shape 0)",
    threshold: "Threshold, mean",
  },
};

const without = {
  lead: (study: string | null) =>
    study === null
      ? "The summary without each study in turn. No study could be left out."
      : `The summary without each study in turn, those first whose absence moves it most: without ${study} it moves farthest. A study that stands out is a reason to look at it, not to leave it out.`,
  caption: "The summary without each study",
  restTitle: (count: number) => `The other ${count} studies`,
  restCaption: "The summary without each of the other studies",
  columns: {
    study: "Without",
    sensitivity: "Sensitivity, %",
    specificity: "Specificity, %",
    distance: "Moves by",
    residuals: "Own result against the others’ prediction",
    sensitivityResidual: "Its sensitivity, score",
    specificityResidual: "Its specificity, score",
    verdict: "Verdict",
  },
  all: "none: all studies",
  changed: (name: string) => `another verdict on ${name}`,
  note: "Moves by: half the squared distance of the summary point in units of its own uncertainty. Score: the study's own result on the scale of what the other studies predict for it; beyond ±2 it is unusual.",
  tooMany: (count: string) => `More than ${count} studies: none was left out in turn.`,
};

const levels = {
  lead: (covariate: string) =>
    `The studies by ${covariate}, each kind with a summary of its own and the same spread around it.`,
  caption: "Summary by kind of study",
  columns: {
    level: "Kind",
    studies: "Studies",
    sensitivity: "Sensitivity, %",
    newSensitivity: "in a new place",
    specificity: "Specificity, %",
    newSpecificity: "in a new place",
  },
  testsCaption: "Are the kinds the same?",
  tests: {
    both: "Both measures the same",
    sensitivityAlone: "Sensitivity the same, specificity free",
    specificityAlone: "Specificity the same, sensitivity free",
  },
  testColumns: { question: "Supposed", chiSquare: "Chi-square", degrees: "df", p: "p" },
  testsLead: "Likelihood-ratio tests of summary points that are the same for all kinds:",
  explained: (parts: readonly string[]) =>
    `Knowing the kind, the between-study standard deviation goes ${listed(parts)}.`,
  explainedPart: (name: string, before: string, after: string) => `from ${before} to ${after} for ${name}`,
  note: "This compares studies, not people: what tells the studies apart may be something else that goes with it. A covariate chosen after looking at the studies finds differences by chance.",
  onlyOne: "The kinds can't be compared.",
};

const small = {
  chart: "Diagnostic odds ratio against the size of the study",
  lead: "If small studies look better than large ones, unpublished small studies that looked worse are one reason; other people, other reference tests and other cutoffs are others.",
  slope: (p: string, direction: "better" | "worse") =>
    `Small studies look ${direction} here (slope of the line, p\u00a0${p}).`,
  noSlope: (p: string) => `The line does not show it (slope, p\u00a0${p}).`,
  kinds: "The kinds of study differ, and may differ in size: the slope may be theirs.",
  caption: "The points of the funnel",
  columns: { study: "Study", effective: "Effective people", odds: "ln odds ratio", error: "Standard error" },
  caution:
    "Mind: this test finds little with fewer than ten studies, or where odds ratios scatter much. A large p-value is no sign that no study stayed in a drawer. Effective people: as many as an even study would need (4 × with × without the condition / all); 0.5 was added to every count.",
};

const models = {
  lead: "The same studies by other models. The page rests on the first line: the counts as they are. Approximations take observed logits as normal, add 0.5 where a count is 0, and are drawn towards 50\u202f% near 0 and 100\u202f%.",
  foldedTitle: "Exact against approximate, side by side",
  caption: "Summary by model",
  columns: {
    model: "Model",
    sensitivity: "Sensitivity, %",
    specificity: "Specificity, %",
    sdSensitivity: "SD, logit sens.",
    sdSpecificity: "SD, logit spec.",
    correlation: "Correlation",
  },
  names: {
    binomial: "Both together, binomial counts",
    alone: "Each by itself, binomial counts",
    normal_ml: "Both together, normal logits, full likelihood",
    normal_reml: "Both together, normal logits, restricted likelihood",
    dersimonianLaird: "Each by itself, normal logits, DerSimonian and Laird",
    common: "All people together, one true value (exact)",
  },
  inconsistency: (parts: readonly string[]) =>
    `I² of the logits is ${listed(parts)}. It says how much of the scatter seen is not chance, which grows with the size of the studies; how much places differ is said by the standard deviation and the new place.`,
  inconsistencyPart: (name: string, value: string) => `${value} for ${name}`,
};

const leftOut = {
  lead: "Rows of the table that could not be used, and why. Nothing is left out in silence.",
  caption: "Rows left out",
  columns: { row: "Line", study: "Study", column: "Column", expected: "Expected", received: "Found" },
  unnamed: "no name",
  oneKindLead: "Studies that tell of one kind of people alone; they count for that measure:",
};

const methods = {
  lead: "How the numbers came about, for whoever wants to defend or to repeat them.",
  topics: (facts: { level: number; studies: string; points: string }) => [
    {
      term: "The model",
      text: `The true logit sensitivity and logit specificity of the ${facts.studies} studies come from a bivariate normal distribution; the counts are binomial given these, and no count is changed. The integral is had by adaptive Gauss–Hermite quadrature, ${facts.points} places a dimension.`,
    },
    {
      term: "Summary",
      text: `The middle of that distribution, as shares, with ${statedPercent(facts.level)}${THIN}% Wald limits on the logit scale. With fewer than 20 studies they are somewhat narrow.`,
    },
    {
      term: "New place",
      text: "Where the true value of another place of the same kind would lie: t distribution with studies less 2 degrees of freedom (with kinds of studies: less kinds, less 1), uncertainty of the middle and spread between studies added up. It says nothing of how few people that place will test.",
    },
    {
      term: "Verdicts",
      text: "A criterion is met when the lower limit of the summary reaches it, not met when the upper limit is below it, and undecided otherwise.",
    },
    {
      term: "Single studies",
      text: `Exact (Clopper–Pearson) ${statedPercent(facts.level)}${THIN}% limits.`,
    },
  ],
};

const cautions = {
  lead: "What this page is, and what it is not.",
  items: [
    "This is not a medical device. It serves evaluation, planning and teaching, and finds out about, or treats, nobody.",
    "Pooling adds up what was published. It can't mend how the studies were done: who was chosen, who read, what the reference was, who was not verified. Judge each study first.",
    "The summary is the middle of these studies. They are seldom a sample of the places where the test will be used.",
    "The prediction for a new place supposes that it is one of the same kind as these studies.",
    "Studies that nobody published can't be pooled. No funnel shows that there are none.",
    "Sensitivity and specificity at different cutoffs are different tests. The curve over studies is no choice of cutoffs for one place.",
    "A difference between kinds of studies is a comparison of studies, not of people, and only worth its name if the kind was named beforehand.",
    "People counted in two studies count twice: look for reports of the same study.",
    "The national testing guideline and the regulator decide. A criterion that is met here is neither an approval nor an endorsement.",
    "Let a statistician review the pooling before it is relied on.",
    "No test, kit or company is endorsed. Figures of an example are those of its source, not advice.",
    "This program has not been validated under ISO 13485, IEC 62304 or 21 CFR 11. Whoever needs validated records keeps their own.",
    "A figure or formula marked “cited from memory” waits for someone to check it against its source.",
  ],
} as const;

const provenance = {
  lead: "Which files this page was made from. The same files and software give the same page, byte for byte; the pooling document is embedded in this page and can be read back.",
  fileHash: "Pooling file and table together, SHA-256",
  source: "Where the counts come from",
  format: "Pooling document",
};

/** The words of every section of the page of pooled studies. */
export const poolParts = {
  studiesPart: studies,
  plot,
  without,
  levels,
  small,
  models,
  leftOut,
  methods,
  cautions,
  provenance,
};
