import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { chancesOf, drawnAgain, replicateOf } from "../../../src/methods/reference/latent-bootstrap.ts";
import { latentClass } from "../../../src/methods/reference/latent-class.ts";
import { latentData } from "../../../src/methods/reference/latent-data.ts";
import type { LatentInput } from "../../../src/methods/reference/latent-fields.ts";
import { latentLayout } from "../../../src/methods/reference/latent-layout.ts";
import { searchOf } from "../../../src/methods/reference/latent-search.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { drawnPeople, INDEPENDENT, twoPopulations } from "./latent-people.ts";

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-latent-bootstrap.R`. */
interface Opinion {
  readonly name: string;
  readonly tests: number;
  /** By population, then by pattern: bit t is the result of test t. */
  readonly counts: readonly (readonly number[])[];
  readonly replicates: number;
  /** Prevalences, then P(reactive) of every test with the condition, then without. */
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly deviations: readonly number[];
}
const file = new URL("../../reference/second-opinion-latent-bootstrap.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as readonly Opinion[];

const inputOf = ({ tests, counts }: Pick<Opinion, "tests" | "counts">): LatentInput => ({
  tests: Array.from({ length: tests }, (_, test) => `test ${test}`),
  populations: counts.map((people, place) => ({
    label: `population ${place}`,
    patterns: people.map((seen, x) => ({
      reactive: Array.from({ length: tests }, (_, test) => ((x >> test) & 1) === 1),
      people: seen,
    })),
  })),
  dependence: INDEPENDENT,
});

/** Standard error of a 2.5 % percentile of so many replicates, in standard deviations of a normal variable. */
const percentileError = (replicates: number) => Math.sqrt((0.025 * 0.975) / replicates) / 0.0584;

describe("the bootstrap of a latent class model", () => {
  it.each(opinions)("$name: as R's replicates, within what drawing leaves open", (opinion) => {
    const replicates = 1500;
    const found = compute(latentClass, inputOf(opinion), { interval: "bootstrap", replicates, starts: 4 });
    expect(faultsOf(found)).toEqual([]);
    const { tests, populations } = found.values;
    const ours = [
      ...populations.map(({ prevalence }) => prevalence.estimate),
      ...tests.map(({ sensitivity }) => sensitivity.estimate),
      ...tests.map(({ specificity: { estimate } }) => ({
        lower: 1 - (estimate.upper ?? Number.NaN),
        upper: 1 - (estimate.lower ?? Number.NaN),
      })),
    ];
    const apart = 4.5 * Math.hypot(percentileError(replicates), percentileError(opinion.replicates));
    ours.forEach(({ lower, upper }, place) => {
      const absolute = apart * (opinion.deviations[place] ?? 0);
      expectClose(lower, opinion.lower[place] ?? -1, { absolute }, `lower ${place}`);
      expectClose(upper, opinion.upper[place] ?? -1, { absolute }, `upper ${place}`);
    });
  });

  it("is the same however the replicates are split, and another with another seed", () => {
    const data = latentData(twoPopulations);
    const layout = latentLayout(data);
    const summit = searchOf(data, layout, 3, 1).best;
    const drawing = { summit, chances: chancesOf(summit.theta, data, layout), data, layout, seed: 5 };
    const options = { level: 0.9, replicates: 100, seed: 5 };
    const first = (theta: Float64Array) => theta[0] as number;
    const together = drawnAgain(summit, data, layout, options).estimateOf(first);
    const backwards = Array.from({ length: 100 }, (_, k) => replicateOf(99 - k, drawing)?.[0] ?? Number.NaN);
    backwards.sort((a, b) => a - b);
    expect([together.lower, together.upper]).toEqual([backwards[4], backwards[94]]);
    const other = drawnAgain(summit, data, layout, { ...options, seed: 6 }).estimateOf(first);
    expect(other.lower).not.toBe(together.lower);
  });

  it("gives limits of a pair's covariance, of a shared effect and of missing tests", () => {
    const truth = { se: [0.75, 0.75, 0.85], sp: [0.9, 0.9, 0.9], copied: [0.6, 0.5] };
    const seen = [0.2, 0.7].map((prevalence, place) => ({
      label: `${place}`,
      patterns: drawnPeople(randomStream(23, place), 4000, prevalence, truth),
    }));
    const untested = { reactive: [true, false, null], people: 20 };
    const populations = seen.map(({ label, patterns }, place) => ({
      label,
      patterns: place === 0 ? [...patterns, untested] : patterns,
    }));
    const tests = ["a", "b", "c"];
    const chosen = { interval: "bootstrap", replicates: 100, starts: 3 } as const;
    const found = compute(
      latentClass,
      { tests, populations, dependence: { kind: "pairs", pairs: [{ first: "a", second: "b" }] } },
      chosen,
    );
    expect(faultsOf(found)).toEqual([]);
    const { estimate, standardError } = found.values.couplings[0]?.diseased ?? {};
    // The delta method's limits are near: the sample is large.
    const reach = 1.96 * (standardError ?? 0);
    for (const [limit, side] of [
      [estimate?.lower, -1],
      [estimate?.upper, 1],
    ] as const) {
      expectClose(limit, (estimate?.value ?? 0) + side * reach, { absolute: 0.7 * reach });
    }
    const shared = compute(
      latentClass,
      { tests, populations, dependence: { kind: "random_effect" } },
      { ...chosen, starts: 2 },
    );
    expect(faultsOf(shared)).toEqual([]);
    const correlation = shared.values.couplings[0]?.diseased.estimate;
    expect(correlation?.lower ?? 1).toBeLessThanOrEqual(correlation?.value ?? 0);
    expect(correlation?.upper ?? 0).toBeGreaterThanOrEqual(correlation?.value ?? 1);
    expect(correlation?.upper ?? 1).toBeLessThanOrEqual(0.9);
  });

  it("warns where a share is at its border", () => {
    const found = compute(latentClass, inputOf({ tests: 3, counts: [[200, 0, 0, 12, 0, 9, 0, 40]] }), {
      interval: "bootstrap",
      replicates: 100,
    });
    expect(faultsOf(found)).toEqual([]);
    const told = found.notes.filter(({ code }) => code === "at_border").map(({ message }) => message);
    expect(told.join(" ")).toContain("nobody is drawn who would speak against it");
  });

  it("holds the truth about as often as it says, and as profile limits do", () => {
    const truth = { se: [0.85, 0.8, 0.9], sp: [0.9, 0.95, 0.85] };
    const studies = 60;
    const held = { bootstrap: 0, profile: 0 };
    for (let study = 0; study < studies; study += 1) {
      const patterns = drawnPeople(randomStream(31, study), 600, 0.35, truth);
      const input = {
        tests: ["a", "b", "c"],
        populations: [{ label: "all", patterns }],
        dependence: INDEPENDENT,
      };
      for (const interval of ["bootstrap", "profile"] as const) {
        const { tests } = compute(latentClass, input, {
          interval,
          starts: 1,
          level: 0.9,
          replicates: 100,
        }).values;
        tests.forEach(({ sensitivity: { estimate } }, test) => {
          const share = truth.se[test] ?? 0;
          held[interval] += Number((estimate.lower ?? 1) <= share && share <= (estimate.upper ?? 0)) / 3;
        });
      }
    }
    // Three limits of one study hang together: counted as if only the studies were independent.
    const error = Math.sqrt((0.9 * 0.1) / studies);
    expectClose(held.bootstrap / studies, 0.9, { absolute: 4 * error }, "bootstrap");
    expectClose(held.bootstrap / studies, held.profile / studies, { absolute: 0.08 }, "beside the profile");
  }, 60_000);
});
