/** The words of an algorithm's charts, in English. A translation is another object of the same shape. */
export interface AlgorithmChartWords {
  readonly prevalence: string;
  readonly predictiveTitle: (algorithm: string) => string;
  readonly predictiveDescription: (from: string, to: string) => string;
  readonly predictiveAxis: string;
  readonly afterReactive: (kits: readonly string[]) => string;
  readonly whole: string;
  readonly wholeIndependent: string;
  readonly target: (share: string) => string;
  readonly lineAt: (line: string, channel: string, share: string) => string;
  readonly sweepTitle: (pair: string) => string;
  readonly sweepDescription: (pair: string) => string;
  readonly sweepAxis: string;
  readonly dependence: Readonly<Record<"phi" | "spread", string>>;
  readonly sweepLine: (channel: string, independent: string, stated: string, phi: string) => string;
  readonly statedAt: (phi: string) => string;
  readonly tornadoTitle: (outcome: string) => string;
  readonly tornadoBar: (
    input: string,
    low: string,
    lowOutcome: string,
    high: string,
    highOutcome: string,
  ) => string;
  readonly centre: (value: string) => string;
  readonly lowInput: string;
  readonly highInput: string;
  readonly frontierTitle: (channel: string) => string;
  readonly frontierDescription: string;
  readonly cost: (unit: string) => string;
  readonly falsePositives: string;
  readonly missed: string;
  readonly frontierPoint: (name: string, cost: string, falsePositives: string, missed: string) => string;
  readonly bestTitle: string;
  readonly bestDescription: string;
  readonly bestStretch: (name: string, from: string, to: string) => string;
  readonly chanceBest: string;
  readonly noneMeets: string;
  readonly mapTitle: (pair: string) => string;
  readonly mapDescription: (target: string) => string;
  readonly mapReached: (target: string) => string;
  readonly mapShades: string;
}

const listed = (items: readonly string[]) => items.join(", then ");

export const ALGORITHM_CHART_WORDS: AlgorithmChartWords = {
  prevalence: "Prevalence (%), ratio scale",
  predictiveTitle: (algorithm) => `Positive predictive value after each reactive result: ${algorithm}`,
  predictiveDescription: (from, to) =>
    `Rising lines: share of those called positive who truly are, as prevalence rises from ${from} to ${to} %.`,
  predictiveAxis: "Truly positive among those called positive (%), stretched towards 0 and 100",
  afterReactive: (kits) => `reactive: ${listed(kits)}`,
  whole: "whole algorithm",
  wholeIndependent: "… if independent",
  target: (share) => `target ${share}`,
  lineAt: (line, channel, share) => `${channel}, ${line}: ${share}.`,
  sweepTitle: (pair) => `How much hangs on the dependence of ${pair}`,
  sweepDescription: (pair) =>
    `Falling lines: share of those called positive who truly are, as the errors of ${pair} go together more and more.`,
  sweepAxis: "Truly positive among those called positive (%)",
  dependence: {
    phi: "Error correlation among the truly negative",
    spread: "Spread of what all kits share, among the truly negative",
  },
  sweepLine: (channel, independent, stated, phi) =>
    `${channel}: ${independent} if independent, ${stated} at the ${phi} that is used.`,
  statedAt: (phi) => `as used: ${phi}`,
  tornadoTitle: (outcome) => `What moves it most: ${outcome}`,
  tornadoBar: (input, low, lowOutcome, high, highOutcome) =>
    `${input}: ${lowOutcome} at ${low}, ${highOutcome} at ${high}.`,
  centre: (value) => `all at their centre: ${value}`,
  lowInput: "at the low end",
  highInput: "at the high end",
  frontierTitle: (channel) => `Cost against errors: ${channel}`,
  frontierDescription:
    "Each mark is an algorithm that no other beats; above: people called positive wrongly, below: people missed, per 100,000 tested. Filled marks reach every target.",
  cost: (unit) => `Cost per client (${unit})`,
  falsePositives: "Called positive wrongly, per 100,000, ratio scale",
  missed: "Missed, per 100,000",
  frontierPoint: (name, cost, falsePositives, missed) =>
    `${name}: ${cost} per client, ${falsePositives} called positive wrongly, ${missed} missed.`,
  bestTitle: "The cheapest algorithm that reaches every target, by prevalence",
  bestDescription: "A strip over prevalence, cut where the best choice changes.",
  bestStretch: (name, from, to) => `From ${from} to ${to} %: ${name}.`,
  chanceBest: "Probability of being best (%)",
  noneMeets: "none reaches the targets",
  mapTitle: (pair) => `Positive predictive value over prevalence and dependence: ${pair}`,
  mapDescription: (target) =>
    `A grid: the stronger the shade the higher the share of those called positive who truly are; a line parts what reaches ${target} from what does not.`,
  mapReached: (target) => `${target} reached`,
  mapShades: "PPV, %",
};
