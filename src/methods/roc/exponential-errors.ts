import { pairsBeyond, type Rungs } from "./placements.ts";

export interface ExponentialErrors {
  readonly bothPositives: number;
  readonly bothNegatives: number;
  readonly standardErrorExact: number;
  readonly standardErrorExponential: number;
}

/**
 * Standard errors of the area from two probabilities: that two people with the condition both lie beyond one
 * without (Q1), and that one with it lies beyond two without (Q2), ties shared; from the counts, and as the area
 * alone would have them under exponential distributions.
 * Source: hanley1982
 */
export function exponentialErrors(rungs: Rungs): ExponentialErrors {
  const { positives, negatives, totalPositives, totalNegatives } = rungs;
  const area = pairsBeyond(rungs) / (totalPositives * totalNegatives);
  let [beyond, ahead, bothPositives, bothNegatives] = [0, 0, 0, 0];
  for (let rung = 0; rung < positives.length; rung += 1) {
    const [mine, others] = [positives[rung] as number, negatives[rung] as number];
    const behind = totalNegatives - ahead - others;
    bothPositives += others * (Math.pow(beyond, 2) + beyond * mine + Math.pow(mine, 2) / 3);
    bothNegatives += mine * (Math.pow(behind, 2) + behind * others + Math.pow(others, 2) / 3);
    beyond += mine;
    ahead += others;
  }
  bothPositives /= totalNegatives * Math.pow(totalPositives, 2);
  bothNegatives /= totalPositives * Math.pow(totalNegatives, 2);
  const errorOf = (one: number, other: number) => {
    const squares =
      area * (1 - area) +
      (totalPositives - 1) * (one - Math.pow(area, 2)) +
      (totalNegatives - 1) * (other - Math.pow(area, 2));
    return Math.sqrt(Math.max(0, squares) / (totalPositives * totalNegatives));
  };
  return {
    bothPositives,
    bothNegatives,
    standardErrorExact: errorOf(bothPositives, bothNegatives),
    standardErrorExponential: errorOf(area / (2 - area), (2 * Math.pow(area, 2)) / (1 + area)),
  };
}
