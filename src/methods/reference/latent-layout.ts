import type { LatentData } from "./latent-data.ts";

/**
 * Where each unknown of a latent class model stands. All are on the logit scale, save for the dependence of a
 * pair, which is a log odds ratio; minus and plus infinity stand for the borders.
 */
export interface LatentLayout {
  readonly size: number;
  /** Logit of each population's prevalence. */
  readonly prevalence: (population: number) => number;
  /** Logit of P(test reactive) in a class; class 0 has the condition, class 1 has not. */
  readonly reactive: (condition: number, test: number) => number;
  /** The dependence in a class: of a pair of tests, or (place 0) of all tests by a random effect. */
  readonly dependence: (condition: number, place: number) => number;
  readonly dependences: number;
}

export function latentLayout({ tests, populations, pairs, randomEffect }: LatentData): LatentLayout {
  const dependences = randomEffect ? 1 : pairs.length;
  const first = populations + 2 * tests;
  return {
    size: first + 2 * dependences,
    prevalence: (population) => population,
    reactive: (condition, test) => populations + condition * tests + test,
    dependence: (condition, place) => first + condition * dependences + place,
    dependences,
  };
}

export function fromLogit(logit: number): number {
  return logit < 0 ? Math.exp(logit) / (1 + Math.exp(logit)) : 1 / (1 + Math.exp(-logit));
}

/** The same model with the names of the two classes exchanged. */
export function classesExchanged(theta: Float64Array, data: LatentData, layout: LatentLayout): Float64Array {
  const turned = Float64Array.from(theta);
  for (let population = 0; population < data.populations; population += 1) {
    turned[layout.prevalence(population)] = -(theta[layout.prevalence(population)] as number);
  }
  for (const condition of [0, 1]) {
    for (let test = 0; test < data.tests; test += 1) {
      turned[layout.reactive(condition, test)] = theta[layout.reactive(1 - condition, test)] as number;
    }
    for (let place = 0; place < layout.dependences; place += 1) {
      turned[layout.dependence(condition, place)] = theta[layout.dependence(1 - condition, place)] as number;
    }
  }
  return turned;
}

/** Sum over the tests of sensitivity + specificity - 1: above 0 where the classes bear the right names. */
export function youdenSum(theta: Float64Array, data: LatentData, layout: LatentLayout): number {
  let sum = 0;
  for (let test = 0; test < data.tests; test += 1) {
    sum += fromLogit(theta[layout.reactive(0, test)] as number);
    sum -= fromLogit(theta[layout.reactive(1, test)] as number);
  }
  return sum;
}
