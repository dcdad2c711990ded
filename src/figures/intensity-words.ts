/** The words of the figures about instruments and dilution panels, in English. A translation has the same shape. */
export interface IntensityChartWords {
  readonly curveTitle: (of: string) => string;
  readonly curveDescription: string;
  /** `from`: where the scale begins, percent; "0" is not said. */
  readonly sensitivityAxis: (from: string) => string;
  readonly specificityAxis: (from: string) => string;
  readonly curve: string;
  readonly band: (level: string) => string;
  readonly stated: (cutoff: string) => string;
  readonly chosen: (cutoff: string) => string;
  readonly expected: string;
  readonly eye: (reader: string) => string;
  readonly markAt: (mark: string, sensitivity: string, specificity: string) => string;
  readonly truthTitle: (of: string) => string;
  readonly truthDescription: string;
  readonly readings: (unit: string, log: boolean) => string;
  readonly peopleAxis: string;
  readonly group: (truth: "positive" | "negative", people: string) => string;
  readonly beyond: (people: string, side: "below" | "at_or_above" | "above" | "at_or_below") => string;
  readonly quartiles: (
    truth: "positive" | "negative",
    lower: string,
    median: string,
    upper: string,
  ) => string;
  readonly minutesTitle: (of: string) => string;
  readonly minutesDescription: string;
  readonly minutes: string;
  readonly window: (minutes: string) => string;
  readonly truth: (truth: "positive" | "negative") => string;
  readonly inBand: (minutes: string, truth: string, people: string, median: string) => string;
  readonly calibrationTitle: (of: string) => string;
  readonly calibrationDescription: string;
  readonly predicted: string;
  readonly observed: string;
  readonly right: string;
  readonly calibrated: (predicted: string, observed: string) => string;
  readonly doseTitle: (panel: string) => string;
  readonly doseDescription: string;
  readonly concentration: (unit: string) => string;
  readonly reactiveAxis: string;
  readonly tested: (reactive: string, tested: string) => string;
  readonly doseCurve: string;
  readonly doseBand: (level: string) => string;
  readonly asked: (chance: string) => string;
  readonly limit: (concentration: string, unit: string) => string;
  readonly limitSpan: (lower: string, upper: string) => string;
  readonly doseAt: (concentration: string, reactive: string) => string;
}

const WITH = { positive: "with the condition", negative: "without it" };

export const INTENSITY_CHART_WORDS: IntensityChartWords = {
  curveTitle: (of) => `Sensitivity and specificity over all cutoffs: ${of}`,
  curveDescription:
    "Each point of the line is one cutoff, its specificity (falling to the right) and its sensitivity (upwards).",
  sensitivityAxis: (from) => (from === "0" ? "Sensitivity (%)" : `Sensitivity (%), scale begins at ${from}`),
  specificityAxis: (from) =>
    from === "0"
      ? "Specificity (%), falling to the right"
      : `Specificity (%), falling to the right, to ${from}`,
  curve: "instrument, every cutoff",
  band: (level) => `${level} % limits, each cutoff alone`,
  stated: (cutoff) => `cutoff stated: ${cutoff}`,
  chosen: (cutoff) => `cutoff chosen here: ${cutoff}`,
  expected: "the same, to expect in others",
  eye: (reader) => `${reader}, by eye`,
  markAt: (mark, sensitivity, specificity) =>
    `${mark}: sensitivity ${sensitivity}, specificity ${specificity}.`,
  truthTitle: (of) => `Readings by truth: ${of}`,
  truthDescription:
    "Two histograms of readings on one scale: people with the condition above, people without it below.",
  readings: (unit, log) => (log ? `Reading (${unit}), ratio scale` : `Reading (${unit})`),
  peopleAxis: "People, each panel on its own scale",
  group: (truth, people) => `${people} people ${WITH[truth]}`,
  beyond: (people, side) => `${people} ${side.replaceAll("_", " ")}`,
  quartiles: (truth, lower, median, upper) =>
    `People ${WITH[truth]}: median ${median}, half of them from ${lower} to ${upper}.`,
  minutesTitle: (of) => `Readings by the minute of reading: ${of}`,
  minutesDescription: "For each band of minutes the median reading and the middle half, by truth.",
  minutes: "Minutes from the timed step",
  window: (minutes) => `reading window, ${minutes} minutes`,
  truth: (truth) => WITH[truth],
  inBand: (minutes, truth, people, median) => `Minutes ${minutes}, ${people} ${truth}: median ${median}.`,
  calibrationTitle: (of) => `Share with the condition by the probability given: ${of}`,
  calibrationDescription:
    "Groups of people by the probability that the instrument gave: mean probability to the right, share with the condition upwards.",
  predicted: "Probability given by the instrument (%)",
  observed: "With the condition (%)",
  right: "as it should be",
  calibrated: (predicted, observed) => `Given ${predicted}: ${observed} with the condition.`,
  doseTitle: (panel) => `Share of devices reactive by concentration: ${panel}`,
  doseDescription:
    "Points: share of devices reactive at each concentration; line: the fitted curve with its band.",
  concentration: (unit) => `Concentration (${unit}), ratio scale`,
  reactiveAxis: "Devices reactive (%)",
  tested: (reactive, tested) => `${reactive} / ${tested}`,
  doseCurve: "probit line",
  doseBand: (level) => `${level} % band`,
  asked: (chance) => `asked: ${chance} %`,
  limit: (concentration, unit) => `${concentration} ${unit}`,
  limitSpan: (lower, upper) => `(${lower} to ${upper})`,
  doseAt: (concentration, reactive) => `At ${concentration}: ${reactive} reactive.`,
};
