import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { latentClass } from "../../../src/methods/reference/latent-class.ts";
import type { LatentInput } from "../../../src/methods/reference/latent-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-latent.R`. */
interface Opinion {
  readonly name: string;
  readonly kind: "independent" | "pairs" | "random_effect";
  readonly tests: number;
  readonly populations: number;
  /** Population (from 1), the result of every test (null: not done), people. */
  readonly rows: readonly (number | null)[][];
  readonly logLikelihood: number;
  /** Prevalences, then P(reactive) of every test with the condition, then without. */
  readonly shares: readonly number[];
  readonly standardErrors: readonly number[];
  /** Covariances of the pair, or latent correlations: with the condition, without. */
  readonly dependence: readonly number[];
  /** Profile limits of the first test's sensitivity. */
  readonly firstSensitivity: readonly (number | null)[];
}
const file = new URL("../../reference/second-opinion-latent.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as readonly Opinion[];

function inputOf({ kind, tests, populations, rows }: Opinion): LatentInput {
  const dependence: LatentInput["dependence"] =
    kind === "pairs" ? { kind, pairs: [{ first: "test 1", second: "test 2" }] } : { kind };
  return {
    tests: Array.from({ length: tests }, (_, test) => `test ${test + 1}`),
    populations: Array.from({ length: populations }, (_, place) => ({
      label: `population ${place + 1}`,
      patterns: rows
        .filter(([population]) => population === place + 1)
        .map((row) => ({
          reactive: row.slice(1, -1).map((result) => (result === null ? null : result === 1)),
          people: row.at(-1) ?? -1,
        })),
    })),
    dependence,
  };
}

/** R's maximum is exact to about the square root of its rounding, its standard errors to its differences. */
const SHARE = { absolute: 2e-5 };
const ERROR = { relative: 1e-3 };

describe("latent classes against R", () => {
  it.each(opinions.map((opinion) => [opinion.name, opinion] as const))("%s", (_, opinion) => {
    const interval = opinion.firstSensitivity[0] === null ? "wald" : "profile";
    const found = compute(latentClass, inputOf(opinion), { interval, starts: 8 });
    expect(faultsOf(found)).toEqual([]);
    const { tests, populations, couplings, fit } = found.values;
    expectClose(fit.logLikelihood, opinion.logLikelihood, { relative: 1e-9 }, "log-likelihood");
    const ours = [
      ...populations.map(({ prevalence }) => prevalence),
      ...tests.map(({ sensitivity }) => sensitivity),
      ...tests.map(({ specificity: { estimate, standardError } }) => ({
        estimate: { value: 1 - (estimate.value ?? Number.NaN) },
        standardError,
      })),
    ];
    expect(ours).toHaveLength(opinion.shares.length);
    ours.forEach(({ estimate, standardError }, place) => {
      expectClose(estimate.value, opinion.shares[place] ?? -1, SHARE, `share ${place}`);
      expectClose(standardError, opinion.standardErrors[place] ?? -1, ERROR, `standard error ${place}`);
    });
    opinion.dependence.forEach((expected, condition) => {
      const part = condition === 0 ? couplings[0]?.diseased : couplings[0]?.nondiseased;
      expectClose(part?.estimate.value, expected, { absolute: 5e-5 }, `dependence ${condition}`);
    });
    if (interval === "wald") return;
    const [lower, upper] = opinion.firstSensitivity;
    const estimate = tests[0]?.sensitivity.estimate;
    expectClose(estimate?.lower, lower ?? -1, { absolute: 2e-5 }, "lower profile limit");
    expectClose(estimate?.upper, upper ?? -1, { absolute: 2e-5 }, "upper profile limit");
  });
});
