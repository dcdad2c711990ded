/**
 * The words of the figures with two axes, in English. A translation is another object of the same
 * shape, handed in with the data.
 */
export interface ChartWords {
  readonly prevalence: string;
  readonly predictiveValue: string;
  readonly ppv: string;
  readonly npv: string;
  readonly curveTitle: (analyte: string) => string;
  readonly curveDescription: (from: string, to: string) => string;
  readonly band: (level: string) => string;
  readonly atProgramme: (programme: string, prevalence: string, ppv: string, npv: string) => string;
  readonly notDrawn: (programmes: string) => string;
  readonly nothingMeasured: string;
  readonly minutes: string;
  readonly people: string;
  readonly early: (people: string) => string;
  readonly inWindow: (people: string, minutes: string) => string;
  readonly late: (people: string) => string;
  readonly unknownTime: (people: string) => string;
  readonly beyond: (people: string, minutes: string) => string;
  readonly minutesTitle: (analyte: string, agreement: boolean) => string;
  readonly minutesDescription: (agreement: boolean) => string;
  readonly positiveMeasure: (agreement: boolean) => string;
  readonly negativeMeasure: (agreement: boolean) => string;
  readonly percentAxis: (from: string) => string;
  readonly windowOf: (minutes: string) => string;
  readonly inBand: (minutes: string, positive: string, negative: string) => string;
  readonly timeTitle: (analyte: string) => string;
}

export const CHART_WORDS: ChartWords = {
  prevalence: "Prevalence (%), ratio scale",
  predictiveValue: "Predictive value (%)",
  ppv: "PPV",
  npv: "NPV",
  curveTitle: (analyte) => `Predictive values of ${analyte} over prevalence`,
  curveDescription: (from, to) =>
    `Lines: positive predictive value (solid) and negative predictive value (dashed) as prevalence rises from ${from} to ${to} %.`,
  band: (level) => `Bands: ${level} % intervals.`,
  atProgramme: (programme, prevalence, ppv, npv) =>
    `${programme}, prevalence ${prevalence} %: PPV ${ppv}, NPV ${npv}.`,
  notDrawn: (programmes) => `Not drawn, prevalence 0 %: ${programmes}.`,
  nothingMeasured: "no estimate",
  minutes: "Minutes from the timed step to the reading",
  people: "People",
  early: (people) => `early: ${people}`,
  inWindow: (people, minutes) => `in the window, ${minutes} min: ${people}`,
  late: (people) => `late: ${people}`,
  unknownTime: (people) => `time not recorded: ${people}`,
  beyond: (people, minutes) => `${people} later than ${minutes} min`,
  minutesTitle: (analyte, agreement) =>
    `${agreement ? "Agreement" : "Sensitivity and specificity"} of ${analyte} by minutes to the reading`,
  minutesDescription: (agreement) =>
    `Filled dots: ${agreement ? "positive percent agreement" : "sensitivity"}; hollow dots: ${agreement ? "negative percent agreement" : "specificity"}; each with its interval.`,
  positiveMeasure: (agreement) => (agreement ? "positive percent agreement" : "sensitivity"),
  negativeMeasure: (agreement) => (agreement ? "negative percent agreement" : "specificity"),
  percentAxis: (from) => (from === "0" ? "%" : `%, scale begins at ${from}`),
  windowOf: (minutes) => `window, ${minutes} min`,
  inBand: (minutes, positive, negative) => `${minutes} min: ${positive}, ${negative}.`,
  timeTitle: (analyte) => `When results were read: ${analyte}`,
};
