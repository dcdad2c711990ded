import { logGamma } from "../../numeric/gamma-function.ts";

/** Exact p-values: the probability of all counts at least as far off as those observed. */
export interface ExactTails {
  /** By probability: all counts no more probable. */
  readonly probability: number;
  readonly likelihoodRatio: number;
  readonly pearson: number;
}

/** How far off counts are. */
export interface Statistics {
  readonly logProbability: number;
  readonly likelihoodRatio: number;
  readonly pearson: number;
}

/** Counts as far off as those observed, up to rounding, count as equally far. */
const ROUNDING = 1e-7;

/** How many ways there are to spread so many people over so many patterns. */
export function waysToSpread(people: number, patterns: number): number {
  let ways = 1;
  for (let part = 1; part < patterns; part += 1) ways *= (people + part) / part;
  return ways;
}

/**
 * @param observed      people of each pattern
 * @param probabilities of each pattern, all above 0
 */
export function statisticsOf(observed: readonly number[], probabilities: readonly number[]): Statistics {
  const people = observed.reduce((sum, count) => sum + count, 0);
  let [logProbability, likelihoodRatio, pearson] = [logGamma(people + 1), 0, 0];
  for (const [place, count] of observed.entries()) {
    const part = partOf(count, people, probabilities[place] as number);
    logProbability += part.logProbability;
    likelihoodRatio += part.likelihoodRatio;
    pearson += part.pearson;
  }
  return { logProbability, likelihoodRatio: Math.max(0, likelihoodRatio), pearson };
}

function partOf(count: number, people: number, probability: number): Statistics {
  const expected = people * probability;
  return {
    logProbability: count * Math.log(probability) - logGamma(count + 1),
    likelihoodRatio: count > 0 ? 2 * count * Math.log(count / expected) : 0,
    pearson: expected > 0 ? Math.pow(count - expected, 2) / expected : 0,
  };
}

/** Adds up every way of spreading the people over the patterns: `waysToSpread` of them. */
export function exactTails(observed: readonly number[], probabilities: readonly number[]): ExactTails {
  const people = observed.reduce((sum, count) => sum + count, 0);
  const seen = statisticsOf(observed, probabilities);
  const slack = (statistic: number) => statistic - ROUNDING * (1 + statistic);
  const bars = {
    logProbability: seen.logProbability + ROUNDING,
    likelihoodRatio: slack(seen.likelihoodRatio),
    pearson: slack(seen.pearson),
  };
  const parts = probabilities.map((probability) =>
    Array.from({ length: people + 1 }, (_, count) => partOf(count, people, probability)),
  );
  const tails = { probability: 0, likelihoodRatio: 0, pearson: 0 };
  const last = probabilities.length - 1;
  const spread = (place: number, left: number, log: number, ratio: number, square: number): void => {
    const list = parts[place] as Statistics[];
    for (let count = place === last ? left : 0; count <= left; count += 1) {
      const part = list[count] as Statistics;
      const logSoFar = log + part.logProbability;
      const ratioSoFar = ratio + part.likelihoodRatio;
      const squareSoFar = square + part.pearson;
      if (place < last) {
        spread(place + 1, left - count, logSoFar, ratioSoFar, squareSoFar);
        continue;
      }
      const probability = Math.exp(logSoFar);
      if (logSoFar <= bars.logProbability) tails.probability += probability;
      if (ratioSoFar >= bars.likelihoodRatio) tails.likelihoodRatio += probability;
      if (squareSoFar >= bars.pearson) tails.pearson += probability;
    }
  };
  spread(0, people, logGamma(people + 1), 0, 0);
  return {
    probability: Math.min(1, tails.probability),
    likelihoodRatio: Math.min(1, tails.likelihoodRatio),
    pearson: Math.min(1, tails.pearson),
  };
}
