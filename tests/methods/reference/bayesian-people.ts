import type { BayesianInput } from "../../../src/methods/reference/bayesian-fields.ts";
import { FLAT } from "../../../src/methods/reference/prior-fields.ts";
import { four, INDEPENDENT, twoPopulations } from "./latent-people.ts";

export const beta = (alpha: number, other: number) => ({ alpha, beta: other });
const allFlat = { sensitivity: FLAT, specificity: FLAT };

/** Counts of Hui and Walter 1980 (memory) with flat priors. */
export const flatPopulations: BayesianInput = {
  ...twoPopulations,
  priors: { tests: [allFlat, allFlat], populations: [FLAT, FLAT] },
};

const TWENTY = { sensitivity: beta(20, 2), specificity: beta(20, 2) };

/** The same, the two tests depending on one another, with priors that say they are good. */
export const dependentPopulations: BayesianInput = {
  ...twoPopulations,
  dependence: { kind: "pairs", pairs: [{ first: "kit", second: "reference" }] },
  priors: { tests: [TWENTY, TWENTY], populations: [FLAT, FLAT] },
};

/** Counts and priors of Joseph, Gyorkos and Coupal 1995 (memory), under plain names. */
export const onePopulation: BayesianInput = {
  tests: ["kit", "reference"],
  populations: [{ label: "all", patterns: four(38, 87, 2, 35) }],
  dependence: INDEPENDENT,
  priors: {
    tests: [
      { sensitivity: beta(21.96, 5.49), specificity: beta(4.1, 1.76) },
      { sensitivity: beta(4.44, 13.31), specificity: beta(71.25, 3.75) },
    ],
    populations: [FLAT],
  },
};

const NINE = { sensitivity: beta(9, 2), specificity: beta(9, 2) };
const three = (people: readonly number[]) =>
  people.map((seen, x) => ({
    reactive: [0, 1, 2].map((test) => ((x >> test) & 1) === 1),
    people: seen,
  }));

/** Three tests that share a normal variable: invented counts. */
export const sharedThree: BayesianInput = {
  tests: ["a", "b", "c"],
  populations: [{ label: "all", patterns: three([60, 6, 5, 3, 4, 4, 3, 35]) }],
  dependence: { kind: "random_effect" },
  priors: { tests: [NINE, NINE, NINE], populations: [beta(2, 3)] },
};

/** Three tests, the third done in 100 of 250 people: invented counts. */
export const thirdSometimes: BayesianInput = {
  ...sharedThree,
  populations: [
    {
      label: "all",
      patterns: [
        { reactive: [true, true, null], people: 38 },
        { reactive: [true, false, null], people: 12 },
        { reactive: [false, true, null], people: 9 },
        { reactive: [false, false, null], people: 91 },
        { reactive: [true, true, true], people: 30 },
        { reactive: [true, false, true], people: 5 },
        { reactive: [false, true, true], people: 3 },
        { reactive: [false, false, true], people: 4 },
        { reactive: [true, true, false], people: 3 },
        { reactive: [true, false, false], people: 6 },
        { reactive: [false, true, false], people: 7 },
        { reactive: [false, false, false], people: 42 },
      ],
    },
  ],
  dependence: INDEPENDENT,
};
