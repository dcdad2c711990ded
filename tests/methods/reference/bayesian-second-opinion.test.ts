import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { referenceBayesian } from "../../../src/methods/reference/bayesian.ts";
import type { BayesianInput, Posterior } from "../../../src/methods/reference/bayesian-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { valueAt } from "../plain-values.ts";
import { dependentPopulations, flatPopulations, sharedThree, thirdSometimes } from "./bayesian-people.ts";

/** Made by JAGS 4.3.1 with `tests/reference/scripts/second-opinion-bayesian.R`. */
interface Opinion {
  readonly mean: number;
  readonly sd: number;
  readonly median: number;
  readonly lower: number;
  readonly upper: number;
  /** Monte Carlo error of the mean. */
  readonly error: number;
}
const file = new URL("../../reference/second-opinion-bayesian.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as Record<string, Record<string, Opinion>>;

/** JAGS counts from 1; its only prevalence bears no number. */
function pathOf(name: string): string {
  const [, word, number] = /^(\w+?)(?:\[(\d)\])?$/.exec(name) ?? [];
  const place = Number(number ?? 1) - 1;
  if (word === "se") return `tests.${place}.sensitivity`;
  if (word === "sp") return `tests.${place}.specificity`;
  if (word === "prev") return `populations.${place}.prevalence`;
  return `couplings.0.${place === 0 ? "diseased" : "nondiseased"}`;
}

describe("posteriors by JAGS", () => {
  it.each<[string, BayesianInput, object]>([
    ["independent", flatPopulations, { draws: 10_000 }],
    ["pair", dependentPopulations, { draws: 20_000 }],
    ["missing", thirdSometimes, { draws: 10_000 }],
    ["shared", sharedThree, { draws: 3000, chains: 2 }],
  ])(
    "%s",
    (name, input, options) => {
      const { values } = compute(referenceBayesian, input, options);
      for (const [theirs, opinion] of Object.entries(opinions[name] ?? {})) {
        const path = pathOf(theirs);
        const ours = valueAt(values, path) as Posterior;
        // Both were drawn: 4.5 standard errors of the difference of two means; a median's is about 1.3 times as large.
        const error = Math.hypot(opinion.error, ours.monteCarloError ?? Number.NaN);
        expectClose(ours.mean, opinion.mean, { absolute: 4.5 * error }, path);
        expectClose(ours.median, opinion.median, { absolute: 6 * error }, path);
        // A 2.5 % point's error is some 2.7 times the mean's where draws are independent, more where they hang together.
        expectClose(ours.lower, opinion.lower, { absolute: 15 * error }, path);
        expectClose(ours.upper, opinion.upper, { absolute: 15 * error }, path);
        const effective = Math.min(ours.tailEffective ?? 0, (opinion.sd / opinion.error) ** 2);
        expectClose(ours.standardDeviation, opinion.sd, { relative: 5 / Math.sqrt(effective) }, path);
      }
    },
    60_000,
  );
});
