import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import type { BayesianInput } from "../../../src/methods/reference/bayesian-fields.ts";
import { priorSensitivityMethod, underPriors } from "../../../src/methods/reference/prior-sensitivity.ts";
import { alternativesTo } from "../../../src/methods/reference/prior-sensitivity-alternatives.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { four, INDEPENDENT, twoPopulations } from "./latent-people.ts";

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-prior-sensitivity.R`. */
interface Opinion {
  /** What was done to the priors, or the share whose prior was made flat. */
  readonly name: string;
  /** Median, limits, standard deviation, density at median and limits. */
  readonly prevalence: readonly number[];
  /** Sensitivity and specificity of each test. */
  readonly tests: readonly (readonly (readonly number[])[])[];
}
const file = new URL("../../reference/second-opinion-prior-sensitivity.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as readonly Opinion[];

const beta = (alpha: number, other: number) => ({ alpha, beta: other });
/** Counts and priors of Joseph, Gyorkos and Coupal 1995 (memory). */
const strongyloides: BayesianInput = {
  tests: ["serology", "stool"],
  populations: [{ label: "all", patterns: four(38, 87, 2, 35) }],
  dependence: INDEPENDENT,
  priors: {
    tests: [
      { sensitivity: beta(21.96, 5.49), specificity: beta(4.1, 1.76) },
      { sensitivity: beta(4.44, 13.31), specificity: beta(71.25, 3.75) },
    ],
    populations: [beta(1, 1)],
  },
};
const flatPriors = (tests: number, populations: number): BayesianInput["priors"] => ({
  tests: Array.from({ length: tests }, () => ({ sensitivity: beta(1, 1), specificity: beta(1, 1) })),
  populations: Array.from({ length: populations }, () => beta(1, 1)),
});

describe("latent classes under other priors", () => {
  const found = compute(priorSensitivityMethod, strongyloides, { draws: 8000, seed: 3 });

  it("leaves nothing unexplained", () => {
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.largest).toHaveLength(5);
  });

  it.each(opinions)("$name: as R's exact mixtures, within what drawing leaves open", (opinion) => {
    const alternative = found.values.alternatives.find(({ name, changed }) =>
      name === "flat_alone" ? changed[0] === opinion.name : name === opinion.name,
    );
    const effective = alternative?.fewestEffective ?? 0;
    expect(effective).toBeGreaterThan(400);
    const expected = new Map([["populations.0.prevalence", opinion.prevalence]]);
    opinion.tests.forEach(([sensitivity = [], specificity = []], test) => {
      expected.set(`tests.${test}.sensitivity`, sensitivity);
      expected.set(`tests.${test}.specificity`, specificity);
    });
    expect(alternative?.parameters).toHaveLength(5);
    for (const { parameter, median, lower, upper, standardDeviation } of alternative?.parameters ?? []) {
      const [middle = 0, least = 0, most = 0, deviation = 0, ...densities] = expected.get(parameter) ?? [];
      // Standard error of a quantile of so many independent draws.
      const apart = (share: number, density = 0) => ({
        absolute: (4.5 * Math.sqrt((share * (1 - share)) / effective)) / density,
      });
      expectClose(median, middle, apart(0.5, densities[0]), `${parameter} median`);
      expectClose(lower, least, apart(0.025, densities[1]), `${parameter} lower`);
      expectClose(upper, most, apart(0.975, densities[2]), `${parameter} upper`);
      expectClose(standardDeviation, deviation, { relative: 0.12 }, `${parameter} deviation`);
    }
  });

  it("names what moves, and by which priors", () => {
    const stated = opinions[0] as Opinion;
    const other = opinions.find(({ name }) => name === "tests.0.sensitivity");
    const shift =
      ((other?.tests[0]?.[0]?.[0] ?? 0) - (stated.tests[0]?.[0]?.[0] ?? 0)) /
      (stated.tests[0]?.[0]?.[3] ?? 1);
    const alone = found.values.alternatives.find(({ changed }) => changed.join() === "tests.0.sensitivity");
    const ours = alone?.parameters.find(({ parameter }) => parameter === "tests.0.sensitivity");
    expectClose(ours?.shift, shift, { absolute: 4.5 * (ours?.shiftError ?? 0) });
    const told = found.notes.filter(({ code }) => code === "prior_sensitive").map(({ message }) => message);
    expect(told.some((message) => message.startsWith("populations.0.prevalence rests on"))).toBe(true);
  });

  it("draws the same under given priors whatever others are asked for", () => {
    const options = { level: 0.95, chains: 2, draws: 300, warmup: 200, seed: 9 };
    const alternatives = alternativesTo(strongyloides.priors);
    const together = compute(priorSensitivityMethod, strongyloides, options).values.alternatives;
    for (const place of [4, 1]) {
      const alone = underPriors(strongyloides, alternatives[place] as (typeof alternatives)[0], options);
      expect(alone.map(({ median }) => median)).toEqual(
        together[place]?.parameters.map(({ median }) => median),
      );
    }
  });

  it("leaves out what changes nothing, and says so where all is flat", () => {
    expect(alternativesTo(flatPriors(3, 2)).map(({ name }) => name)).toEqual(["as_stated"]);
    const input = { ...twoPopulations, priors: flatPriors(2, 2) };
    const flat = compute(priorSensitivityMethod, input, { draws: 200, warmup: 200 });
    expect(flat.values.largest).toEqual([]);
    expect(flat.notes.map(({ code }) => code)).toContain("all_flat");
    expect(faultsOf(flat)).toEqual([]);
    const one = { ...flatPriors(1, 1), populations: [beta(2, 3)] };
    expect(alternativesTo(one).map(({ name, changed }) => [name, ...changed])).toEqual([
      ["as_stated"],
      ["half_weight", "populations.0.prevalence"],
      ["double_weight", "populations.0.prevalence"],
      ["flat_prevalence", "populations.0.prevalence"],
    ]);
  });

  it("many people in a design that tells everything: priors hardly matter", () => {
    const priors = {
      tests: [1, 2].map(() => ({ sensitivity: beta(18, 2), specificity: beta(18, 2) })),
      populations: [beta(2, 8), beta(6, 4)],
    };
    const many = compute(priorSensitivityMethod, { ...twoPopulations, priors }, { draws: 1000 });
    expect(faultsOf(many)).toEqual([]);
    for (const { name, changed, parameters } of many.values.alternatives) {
      if (name !== "flat_alone" || changed[0]?.startsWith("tests")) continue;
      for (const { shift } of parameters) expect(Math.abs(shift ?? 9)).toBeLessThan(0.5);
    }
  });

  it("takes pairs and missing tests", () => {
    const [first, second] = twoPopulations.populations;
    const input: BayesianInput = {
      ...twoPopulations,
      populations: [
        {
          label: "first",
          patterns: [...(first?.patterns ?? []), { reactive: [true, null], people: 12 }],
        },
        { label: "second", patterns: second?.patterns ?? [] },
      ],
      dependence: { kind: "pairs", pairs: [{ first: "kit", second: "reference" }] },
      priors: {
        tests: [1, 2].map(() => ({ sensitivity: beta(18, 2), specificity: beta(18, 2) })),
        populations: [beta(1, 1), beta(1, 1)],
      },
    };
    const paired = compute(priorSensitivityMethod, input, { draws: 200, warmup: 300, chains: 2 });
    expect(faultsOf(paired)).toEqual([]);
    expect(paired.values.alternatives[0]?.parameters.map(({ parameter }) => parameter)).toContain(
      "couplings.0.diseased",
    );
  });
});
