import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { latentClass } from "../../../src/methods/reference/latent-class.ts";
import type { LatentInput } from "../../../src/methods/reference/latent-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { drawnPeople, four, INDEPENDENT, twoPopulations } from "./latent-people.ts";

const shares = (input: LatentInput, options: object = {}) => {
  const { tests, populations } = compute(latentClass, input, options).values;
  return [
    ...populations.map(({ prevalence }) => prevalence),
    ...tests.flatMap(({ sensitivity, specificity }) => [sensitivity, specificity]),
  ];
};

describe("latent classes", () => {
  it("gives back the truth where the counts are what the truth leads one to expect", () => {
    const truth = { prevalence: 0.3, se: [0.9, 0.8, 0.7], sp: [0.95, 0.9, 0.99] };
    const patterns = Array.from({ length: 8 }, (_, x) => {
      const product = (chance: (test: number) => number) =>
        [0, 1, 2].reduce((p, test) => p * ((x >> test) & 1 ? chance(test) : 1 - chance(test)), 1);
      const share =
        truth.prevalence * product((test) => truth.se[test] ?? 0) +
        (1 - truth.prevalence) * product((test) => 1 - (truth.sp[test] ?? 0));
      return { reactive: [0, 1, 2].map((test) => ((x >> test) & 1) === 1), people: Math.round(share * 1e9) };
    });
    const input = {
      tests: ["a", "b", "c"],
      populations: [{ label: "all", patterns }],
      dependence: INDEPENDENT,
    };
    const found = shares(input, { interval: "wald" });
    const expected = [0.3, 0.9, 0.95, 0.8, 0.9, 0.7, 0.99];
    expected.forEach((share, place) => {
      expectClose(found[place]?.estimate.value, share, { absolute: 1e-7 }, `${place}`);
    });
  });

  it("does not mind the order of tests, populations and patterns, nor the seed", () => {
    const first = shares(twoPopulations, { interval: "wald" });
    const turned: LatentInput = {
      ...twoPopulations,
      tests: [...twoPopulations.tests].reverse(),
      populations: [...twoPopulations.populations].reverse().map(({ label, patterns }) => ({
        label,
        patterns: [...patterns]
          .reverse()
          .map(({ reactive, people }) => ({ reactive: [...reactive].reverse(), people })),
      })),
    };
    const again = shares(turned, { interval: "wald", seed: 99, starts: 7 });
    const order = [1, 0, 4, 5, 2, 3];
    order.forEach((other, place) => {
      expectClose(again[place]?.estimate.value, first[other]?.estimate.value ?? -1, { relative: 1e-6 });
      expectClose(again[place]?.standardError, first[other]?.standardError ?? -1, { relative: 1e-6 });
    });
  });

  it("never names the classes the wrong way round, from any start", () => {
    for (let seed = 0; seed < 25; seed += 1) {
      const { tests } = compute(latentClass, twoPopulations, { starts: 1, seed, interval: "wald" }).values;
      for (const { sensitivity, specificity } of tests) {
        expect((sensitivity.estimate.value ?? 0) + (specificity.estimate.value ?? 0)).toBeGreaterThan(1);
      }
    }
  });

  it("exchanges sensitivity and specificity where every result is read the other way round", () => {
    const other: LatentInput = {
      ...twoPopulations,
      populations: twoPopulations.populations.map(({ label, patterns }) => ({
        label,
        patterns: patterns.map(({ reactive, people }) => ({
          reactive: reactive.map((result) => (result === null ? null : !result)),
          people,
        })),
      })),
    };
    const here = compute(latentClass, twoPopulations).values;
    const there = compute(latentClass, other).values;
    here.tests.forEach(({ sensitivity }, test) => {
      const mirrored = there.tests[test]?.specificity.estimate;
      for (const side of ["value", "lower", "upper"] as const) {
        expectClose(mirrored?.[side], sensitivity.estimate[side] ?? -1, { relative: 1e-6 }, side);
      }
    });
    expectClose(
      there.populations[0]?.prevalence.estimate.value,
      1 - (here.populations[0]?.prevalence.estimate.value ?? 9),
      {
        relative: 1e-6,
      },
    );
  });

  it("people whose tests are missing count: one test alone tells of the prevalence, and all are expected", () => {
    const some = structuredClone(twoPopulations) as LatentInput;
    some.populations[0]?.patterns.push(
      { reactive: [true, null], people: 6 },
      { reactive: [false, null], people: 194 },
    );
    const found = compute(latentClass, some, { interval: "wald" });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.fit).toMatchObject({ freeCounts: 7, unknowns: 6, degreesOfFreedom: 1 });
    expect(found.notes.some(({ code }) => code === "missing_tests")).toBe(true);
    const { patterns } = found.values;
    expect(patterns).toHaveLength(10);
    expectClose(
      patterns.reduce((sum, { expected }) => sum + (expected ?? 0), 0),
      1877 + 200,
      { relative: 1e-9 },
    );
    const before = compute(latentClass, twoPopulations, { interval: "wald" }).values;
    const error = (values: typeof before) => values.populations[0]?.prevalence.standardError ?? 0;
    expect(error(found.values)).toBeLessThan(error(before));
  });

  it("profile limits hold the truth about as often as they say", () => {
    const truth = { se: [0.85, 0.8, 0.9], sp: [0.9, 0.95, 0.85] };
    const studies = 120;
    let held = 0;
    let asked = 0;
    for (let study = 0; study < studies; study += 1) {
      const patterns = drawnPeople(randomStream(17, study), 600, 0.35, truth);
      const input = {
        tests: ["a", "b", "c"],
        populations: [{ label: "all", patterns }],
        dependence: INDEPENDENT,
      };
      const { tests } = compute(latentClass, input, { starts: 2, level: 0.9 }).values;
      tests.forEach(({ sensitivity: { estimate } }, test) => {
        const share = truth.se[test] ?? 0;
        held += Number((estimate.lower ?? 1) <= share && share <= (estimate.upper ?? 0));
        asked += 1;
      });
    }
    // Three limits of one study hang together: counted as if only the studies were independent.
    expectClose(held / asked, 0.9, { absolute: 4 * Math.sqrt((0.9 * 0.1) / studies) });
  }, 30_000);

  it("a dependent pair held independent looks better than it is; told, it does not", () => {
    const truth = { se: [0.75, 0.75, 0.85], sp: [0.9, 0.9, 0.9], copied: [0.6, 0.5] };
    const populations = [0.2, 0.7].map((prevalence, place) => ({
      label: `${place}`,
      patterns: drawnPeople(randomStream(23, place), 40_000, prevalence, truth),
    }));
    const tests = ["a", "b", "c"];
    const told = compute(
      latentClass,
      { tests, populations, dependence: { kind: "pairs", pairs: [{ first: "a", second: "b" }] } },
      { interval: "wald", starts: 5 },
    );
    expect(faultsOf(told)).toEqual([]);
    const untold = compute(
      latentClass,
      { tests, populations, dependence: INDEPENDENT },
      { interval: "wald", starts: 5 },
    );
    const first = told.values.tests[0]?.sensitivity;
    expectClose(first?.estimate.value, 0.75, { absolute: 4.5 * (first?.standardError ?? 0) });
    const coupling = told.values.couplings[0]?.diseased;
    // A share of 0.6 answered alike, the rest independently: covariance 0.6 × 0.75 × 0.25.
    expectClose(coupling?.estimate.value, 0.1125, { absolute: 4.5 * (coupling?.standardError ?? 0) });
    expect(untold.values.tests[0]?.sensitivity.estimate.value ?? 0).toBeGreaterThan(0.8);
    expect(untold.values.fit.p).toBeLessThan(1e-6);
    expect(told.values.fit.p).toBeGreaterThan(1e-3);
  });
});

describe("what can't be told", () => {
  it.each<[string, LatentInput, number, number]>([
    [
      "two tests, one population",
      { ...twoPopulations, populations: twoPopulations.populations.slice(0, 1) },
      5,
      3,
    ],
    [
      "three tests, one population, a pair",
      {
        tests: ["a", "b", "c"],
        populations: [{ label: "all", patterns: [{ reactive: [true, true, false], people: 50 }] }],
        dependence: { kind: "pairs", pairs: [{ first: "a", second: "b" }] },
      },
      9,
      7,
    ],
    [
      "a second population without people",
      {
        ...twoPopulations,
        populations: [
          ...twoPopulations.populations.slice(0, 1),
          { label: "none", patterns: four(0, 0, 0, 0) },
        ],
      },
      6,
      3,
    ],
  ])("%s: the design says nothing", (_, input, unknowns, rank) => {
    const found = compute(latentClass, input);
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.fit).toMatchObject({ unknowns, rank, logLikelihood: null });
    expect(found.values.tests[0]?.sensitivity.estimate.value).toBeNull();
    expect(found.notes.find(({ code }) => code === "not_identifiable")?.message).toContain("Add a test");
  });

  it("two populations with the same counts: the counts say nothing, though the design could", () => {
    const [, second] = twoPopulations.populations;
    const same = {
      ...twoPopulations,
      populations: [
        { ...second, label: "a" },
        { ...second, label: "b" },
      ],
    } as LatentInput;
    const found = compute(latentClass, same);
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.tests[0]?.sensitivity.estimate.value).toBeNull();
    expect(found.notes.some(({ code }) => code === "not_identified_here")).toBe(true);
    expectClose(found.values.fit.deviance, 0, { absolute: 1e-5 });
  });

  it("a share at its border has one limit only, by the profile", () => {
    const patterns = [
      { reactive: [true, true, true], people: 40 },
      { reactive: [true, true, false], people: 12 },
      { reactive: [true, false, true], people: 9 },
      { reactive: [false, false, false], people: 200 },
    ];
    const input = {
      tests: ["a", "b", "c"],
      populations: [{ label: "all", patterns }],
      dependence: INDEPENDENT,
    };
    const byProfile = compute(latentClass, input);
    expect(faultsOf(byProfile)).toEqual([]);
    const { sensitivity } = byProfile.values.tests[0] ?? {};
    expect(sensitivity).toMatchObject({ estimate: { value: 1, upper: 1 }, standardError: null });
    expect(sensitivity?.estimate.lower ?? 0).toBeGreaterThan(0.9);
    const byWald = compute(latentClass, input, { interval: "wald" });
    expect(faultsOf(byWald)).toEqual([]);
    expect(byWald.values.tests[0]?.sensitivity.estimate).toEqual({ value: 1, lower: null, upper: null });
  });

  it.each<[LatentInput, string]>([
    [{ ...twoPopulations, tests: ["a", "b", "c"] }, "input.populations.0.patterns.0.reactive"],
    [{ ...twoPopulations, tests: ["a", "a"] }, "input.tests.1"],
    [
      { ...twoPopulations, populations: [{ label: "x", patterns: [{ reactive: [null, null], people: 3 }] }] },
      "input.populations.0.patterns.0.reactive",
    ],
    [
      { ...twoPopulations, dependence: { kind: "pairs", pairs: [{ first: "kit", second: "kit" }] } },
      "input.dependence.pairs.0.second",
    ],
    [
      { ...twoPopulations, dependence: { kind: "pairs", pairs: [{ first: "kit", second: "other" }] } },
      "input.dependence.pairs.0.second",
    ],
  ])("refuses %#", (input, path) => {
    expect(() => compute(latentClass, input)).toThrow(InputError);
    expect(() => compute(latentClass, input)).toThrow(`${path}: `);
  });
});
