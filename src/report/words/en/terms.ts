/**
 * What the two measures and their neighbours are called. Where the comparison method is not a
 * reference standard every word changes: the report then speaks of agreement and of nothing more.
 */
const accuracy = {
  heading: "Accuracy",
  sensitivity: "sensitivity",
  specificity: "specificity",
  overall: "overall accuracy",
  youden: "Youden's index",
  reference: "reference",
  positive: "reference positive",
  negative: "reference negative",
  positives: "reference-positive people",
  negatives: "reference-negative people",
  truePositive: "true reactive",
  falsePositive: "false reactive",
  falseNegative: "missed",
  trueNegative: "true non-reactive",
  prevalence: "reference positive among all in the table",
  right: "right",
  wrong: "wrong",
};

export type Terms = Readonly<Record<keyof typeof accuracy, string>>;

const agreement: Terms = {
  heading: "Agreement",
  sensitivity: "positive percent agreement",
  specificity: "negative percent agreement",
  overall: "overall percent agreement",
  youden: "sum of both agreements less 1",
  reference: "comparison test",
  positive: "comparison test positive",
  negative: "comparison test negative",
  positives: "people positive by the comparison test",
  negatives: "people negative by the comparison test",
  truePositive: "both positive",
  falsePositive: "only the kit reactive",
  falseNegative: "only the comparison positive",
  trueNegative: "both negative",
  prevalence: "comparison test positive among all in the table",
  right: "in agreement",
  wrong: "not in agreement",
};

export const terms = { accuracy, agreement } as const;
