import { randomBinomial, randomNormal } from "d3-random";
import { randomStream } from "../../../src/core/random.ts";
import { expit } from "../../../src/methods/pooling/logit.ts";
import type { Study } from "../../../src/methods/pooling/study-fields.ts";

/** What is true of the studies drawn, on the logit scale. */
export interface Truth {
  readonly sensitivity: number;
  readonly specificity: number;
  readonly spread: {
    readonly sensitivity: number;
    readonly specificity: number;
    readonly correlation: number;
  };
}

export const USUAL: Truth = {
  sensitivity: 2,
  specificity: 3,
  spread: { sensitivity: 0.5, specificity: 0.7, correlation: -0.5 },
};

/** Studies drawn from the bivariate model, 30 to 180 people with the condition and 60 to 360 without. */
export function drawnStudies(size: number, truth: Truth, seed: number, task = 0): Study[] {
  const source = randomStream(seed, task);
  const normal = randomNormal.source(source)(0, 1);
  const binomial = randomBinomial.source(source);
  const { sensitivity, specificity, correlation } = truth.spread;
  return Array.from({ length: size }, (_, place) => {
    const [z, w] = [normal(), normal()];
    const mixed = correlation * z + Math.sqrt(1 - correlation * correlation) * w;
    const diseased = 30 + Math.floor(source() * 151);
    const nondiseased = 60 + Math.floor(source() * 301);
    const truePositives = binomial(diseased, expit(truth.sensitivity + sensitivity * z))();
    const trueNegatives = binomial(nondiseased, expit(truth.specificity + specificity * mixed))();
    return {
      label: `site ${place + 1}`,
      truePositives,
      falsePositives: nondiseased - trueNegatives,
      falseNegatives: diseased - truePositives,
      trueNegatives,
    };
  });
}
