/** The words of a plan's figures, in English. A translation is another object of the same shape. */
export interface PlanChartWords {
  readonly power: string;
  readonly powerTitle: (criterion: string) => string;
  readonly powerDescription: (from: string, to: string, power: string) => string;
  readonly wanted: (power: string) => string;
  readonly first: (people: string) => string;
  readonly stays: (people: string) => string;
  readonly firstAndStays: (people: string) => string;
  readonly notReached: string;
  readonly chance: string;
  readonly enrolled: string;
  readonly chanceTitle: (analyte: string) => string;
  readonly chanceDescription: (from: string, to: string) => string;
  readonly naive: (people: string) => string;
  readonly assured: (assurance: string, people: string) => string;
  readonly whatIfTitle: (criterion: string) => string;
  readonly whatIfPeople: (people: string) => string;
  readonly whatIfExpected: string;
  readonly whatIfLine: (threshold: string) => string;
  readonly whatIfPoint: (expected: string, threshold: string, people: string) => string;
  readonly plan: (people: string) => string;
  readonly neverReached: (expected: string, threshold: string) => string;
  readonly looksTitle: (rule: string) => string;
  readonly wrongSoFar: string;
  /** Where the looks are too close for words at each. */
  readonly wrongSoFarShort: string;
  readonly peopleSoFar: string;
  readonly passes: (wrong: string) => string;
  readonly fails: (wrong: string) => string;
  readonly atMost: (wrong: string) => string;
  readonly atLeast: (wrong: string) => string;
  readonly truth: (share: string, kind: "expected" | "unacceptable") => string;
  readonly look: (people: string, passes: string | null, fails: string | null) => string;
}

export const PLAN_CHART_WORDS: PlanChartWords = {
  power: "Power (%)",
  powerTitle: (criterion) => `Power by number of people: ${criterion}`,
  powerDescription: (from, to, power) =>
    `A saw-toothed line: power over ${from} to ${to} people; ${power} is wanted.`,
  wanted: (power) => `${power} wanted`,
  first: (people) => `first reached: ${people}`,
  stays: (people) => `for good: ${people}`,
  firstAndStays: (people) => `reached, for good: ${people}`,
  notReached: "The power wanted is not reached for good in this range.",
  chance: "Chance of enough positives and negatives (%)",
  enrolled: "People enrolled",
  chanceTitle: (analyte) => `Chance of enough people by number enrolled: ${analyte}`,
  chanceDescription: (from, to) =>
    `A rising line: the chance that enough reference positives and negatives with usable results are among ${from} to ${to} enrolled.`,
  naive: (people) => `on average enough: ${people}`,
  assured: (assurance, people) => `${assurance} sure: ${people}`,
  whatIfTitle: (criterion) => `People needed if other values are expected or demanded: ${criterion}`,
  whatIfPeople: (people) => `${people} needed, ratio scale`,
  whatIfExpected: "What is expected of the kit (%)",
  whatIfLine: (threshold) => `criterion ${threshold}`,
  whatIfPoint: (expected, threshold, people) => `expected ${expected}, criterion ${threshold}: ${people}.`,
  plan: (people) => `the plan: ${people}`,
  neverReached: (expected, threshold) => `expected ${expected}, criterion ${threshold}: can't be shown.`,
  looksTitle: (rule) => `When the study stops: ${rule}`,
  wrongSoFar: "Wrong results so far",
  wrongSoFarShort: "Wrong results so far; upper bars: fails, lower bars: passes",
  peopleSoFar: "People so far",
  passes: (wrong) => `pass ≤\u00a0${wrong}`,
  fails: (wrong) => `fail ≥\u00a0${wrong}`,
  atMost: (wrong) => `≤\u00a0${wrong}`,
  atLeast: (wrong) => `≥\u00a0${wrong}`,
  truth: (share, kind) => `${share} right${kind === "expected" ? ", as expected" : ", unacceptable"}`,
  look: (people, passes, fails) =>
    `At ${people}: ${[
      passes === null ? "no stopping for success" : `passes with ${passes} wrong or fewer`,
      fails === null ? "no stopping for failure" : `fails with ${fails} wrong or more`,
    ].join(", ")}.`,
};
