import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { type Computed, compute } from "../../../src/core/method.ts";
import { referenceBayesian } from "../../../src/methods/reference/bayesian.ts";
import { chainOf } from "../../../src/methods/reference/bayesian-chain.ts";
import type { BayesianInput, BayesianValues } from "../../../src/methods/reference/bayesian-fields.ts";
import { bayesianModel } from "../../../src/methods/reference/bayesian-model.ts";
import { latentClass } from "../../../src/methods/reference/latent-class.ts";
import { FLAT } from "../../../src/methods/reference/prior-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf, valueAt } from "../plain-values.ts";
import { referenceCases } from "../worked/reference-case.ts";
import {
  beta,
  dependentPopulations,
  flatPopulations,
  onePopulation,
  sharedThree,
  thirdSometimes,
} from "./bayesian-people.ts";
import { twoPopulations } from "./latent-people.ts";

type Found = Computed<unknown, unknown, BayesianValues>;
const drawn = (input: BayesianInput, options: object = {}): Found =>
  compute(referenceBayesian, input, options);
const codesOf = ({ notes }: Found) => notes.map(({ code }) => code);

describe("posteriors", () => {
  it("agree with the exact mixture of beta distributions within Monte Carlo error (I-03)", () => {
    const exact = referenceCases().find(({ id }) => id === "I-03")?.expected;
    const { values } = drawn(onePopulation, { draws: 25_000 });
    const names: [string, BayesianValues["tests"][0]["sensitivity"] | undefined][] = [
      ["prev", values.populations[0]?.prevalence],
      ["se1", values.tests[0]?.sensitivity],
      ["sp1", values.tests[0]?.specificity],
      ["se2", values.tests[1]?.sensitivity],
      ["sp2", values.tests[1]?.specificity],
    ];
    for (const [name, found] of names) {
      const error = found?.monteCarloError ?? Number.NaN;
      expect(error / (found?.standardDeviation ?? 0)).toBeLessThan(0.015);
      // 4 Monte Carlo errors of the mean; a median's error is about 1.3, a 2.5 % point's 2.7 times as large.
      for (const [key, errors] of [
        ["mean", 4],
        ["median", 6],
        ["lower", 12],
        ["upper", 12],
      ] as const) {
        expectClose(found?.[key], exact?.[`${name}_${key}`] as number, { absolute: errors * error }, name);
      }
    }
  });

  it("come near the likeliest shares where people are many and priors flat", () => {
    const many = {
      ...flatPopulations,
      populations: flatPopulations.populations.map(({ label, patterns }) => ({
        label,
        patterns: patterns.map(({ reactive, people }) => ({ reactive, people: 400 * people })),
      })),
    };
    const likeliest = compute(latentClass, { ...twoPopulations, populations: many.populations }, {}).values;
    const { values } = drawn(many);
    values.tests.forEach(({ sensitivity, specificity }, test) => {
      const told = likeliest.tests[test];
      for (const [ours, theirs] of [
        [sensitivity, told?.sensitivity],
        [specificity, told?.specificity],
      ] as const) {
        const error = theirs?.standardError ?? Number.NaN;
        // What is left is skewness, which falls with the square root of the people: measured 0.09 of an error.
        expectClose(ours.mean, theirs?.estimate.value ?? -1, { absolute: 0.15 * error });
        expectClose(ours.standardDeviation, error, { relative: 0.05 });
      }
    });
  });

  it.each<[string, BayesianInput, object]>([
    ["independent tests, flat priors", flatPopulations, {}],
    ["results lacking", thirdSometimes, {}],
    ["a pair", dependentPopulations, {}],
    ["a shared effect", sharedThree, { draws: 500, chains: 2 }],
  ])("%s: every number is finite, densities and ranks add up", (_, input, options) => {
    const found = drawn(input, options);
    expect(faultsOf(found)).toEqual([]);
    const { tests, populations, couplings, search } = found.values;
    const all = [
      ...tests.flatMap(({ sensitivity, specificity }) => [sensitivity, specificity]),
      ...populations.map(({ prevalence }) => prevalence),
      ...couplings.flatMap(({ diseased, nondiseased }) => [diseased, nondiseased]),
    ];
    for (const { lower, median, upper, density, ranks, trace } of all) {
      expect(lower).toBeLessThan(median as number);
      expect(median).toBeLessThan(upper as number);
      expect(density).toHaveLength(61);
      const area = density.slice(1).reduce((sum, { at, posterior }, k) => {
        const before = density[k];
        return sum + ((at - (before?.at ?? 0)) * (posterior + (before?.posterior ?? 0))) / 2;
      }, 0);
      // 99.8 % of the draws lie within the points; smoothing and straight lines lose some more: measured 0.04.
      expectClose(area, 1, { absolute: 0.05 });
      expect(ranks.flat().reduce((sum, count) => sum + count, 0)).toBe(
        (search.chains ?? 0) * (search.draws ?? 0),
      );
      expect(trace.every((values) => values.length <= 200)).toBe(true);
    }
  });

  it("show priors as they are: a beta distribution's mean, median and limits", () => {
    const { prior } = drawn(onePopulation, { draws: 100 }).values.tests[1]?.sensitivity ?? {};
    // R 4.2.2: qbeta(c(.5, .025, .975), 4.44, 13.31).
    expectClose(prior?.mean, 4.44 / 17.75, { relative: 1e-12 });
    expectClose(prior?.median, 0.2406005318374363, { relative: 1e-10 });
    expectClose(prior?.lower, 0.0843176933426232, { relative: 1e-10 });
    expectClose(prior?.upper, 0.4689670593410804, { relative: 1e-10 });
  });
});

describe("chains", () => {
  const length = { draws: 200, warmup: 200 };
  let others: Record<string, number[][]>;

  beforeAll(async () => {
    const asked = { flat: flatPopulations, pair: dependentPopulations };
    const files = ["bayesian-chain.ts", "bayesian-model.ts"].map((name) =>
      JSON.stringify(new URL(`../../../src/methods/reference/${name}`, import.meta.url).href),
    );
    const tsx = createRequire(import.meta.url)
      .resolve("tsx/esm/api")
      .replace(/cjs$/, "mjs");
    const code = `
      const { parentPort, workerData } = await import("node:worker_threads");
      const { register } = await import(${JSON.stringify(pathToFileURL(tsx).href)});
      register();
      const { chainOf } = await import(${files[0]});
      const { bayesianModel } = await import(${files[1]});
      const out = {};
      for (const [name, input] of Object.entries(workerData.asked)) {
        out[name] = chainOf(bayesianModel(input), 7, 2, workerData.length).logits.map((column) => [...column]);
      }
      parentPort.postMessage(out);`;
    const worker = new Worker(new URL(`data:text/javascript,${encodeURIComponent(code)}`), {
      workerData: { asked, length },
    });
    others = await new Promise((resolve, reject) => {
      worker.once("message", resolve);
      worker.once("error", reject);
    });
    await worker.terminate();
  }, 30_000);

  it("are the same in whatever order they run, and in another thread", () => {
    for (const [name, input] of Object.entries({ flat: flatPopulations, pair: dependentPopulations })) {
      const model = bayesianModel(input);
      const forward = [0, 1, 2].map((chain) => chainOf(model, 7, chain, length));
      const backward = [2, 1, 0].map((chain) => chainOf(model, 7, chain, length)).reverse();
      expect(backward).toEqual(forward);
      expect(others[name]).toEqual(forward[2]?.logits.map((column) => [...column]));
      expect(forward[0]).not.toEqual(forward[1]);
    }
  });

  it("the first chains do not hang on how many there are", () => {
    const two = drawn(flatPopulations, { chains: 2, draws: 300 }).values.tests[0]?.sensitivity.trace;
    const three = drawn(flatPopulations, { chains: 3, draws: 300 }).values.tests[0]?.sensitivity.trace;
    expect(three?.slice(0, 2)).toEqual(two);
  });

  it("say so where they do not agree", () => {
    const { populations, ...rest } = dependentPopulations;
    const wide = { sensitivity: beta(1.5, 1), specificity: beta(1.5, 1) };
    const found = drawn(
      {
        ...rest,
        populations: populations.slice(1),
        priors: { tests: [wide, wide], populations: [FLAT] },
      },
      { draws: 100, warmup: 100 },
    );
    expect(faultsOf(found)).toEqual([]);
    expect(codesOf(found)).toEqual(expect.arrayContaining(["not_converged", "few_draws", "rests_on_priors"]));
    expect(found.notes.find(({ code }) => code === "not_converged")?.message).toContain("Ask for more draws");
  });
});

describe("names of the classes", () => {
  it("are told by the priors where these differ, and by the sum of accuracies where nothing does", () => {
    const flat = drawn(flatPopulations, { draws: 1000 });
    expect(codesOf(flat)).toContain("classes_named");
    expect(flat.values.search.worstRHat).toBeLessThan(1.01);
    const leaning = { sensitivity: beta(3, 1), specificity: beta(3, 1) };
    const input = { ...flatPopulations, priors: { tests: [leaning, leaning], populations: [FLAT, FLAT] } };
    const told = drawn(input, { draws: 1000 });
    expect(codesOf(told)).not.toContain("classes_named");
    expect(told.values.search.worstRHat).toBeLessThan(1.01);
    expectClose(told.values.tests[0]?.sensitivity.mean, 0.966, { absolute: 0.002 });
  });

  it("both stay, with the weight that the priors give them, where the priors hardly tell", () => {
    // Prevalence 0.5 either way, tests flat: the exchanged answer weighs as the prior of the one informed share.
    const lopsided = { sensitivity: beta(2, 1), specificity: FLAT };
    const other = { sensitivity: FLAT, specificity: FLAT };
    const input = {
      ...flatPopulations,
      priors: { tests: [lopsided, other], populations: [FLAT, FLAT] },
    };
    const found = drawn(input, { draws: 4000 });
    // Density 2 x of the sensitivity: 0.966 under these names, 0.0085 (1 - specificity) under the others.
    const share = (found.values.tests[0]?.sensitivity.mean ?? 0) - 0.9658;
    const expected = (0.0085 / (0.9658 + 0.0085)) * (0.0085 - 0.9658);
    expectClose(share, expected, { absolute: 0.004 });
    expect(codesOf(found)).toContain("two_namings");
  });

  it("can be exchanged by hand: mirrored priors give the mirrored answer", () => {
    const good = { sensitivity: beta(9, 2), specificity: beta(7, 3) };
    const bad = { sensitivity: beta(3, 7), specificity: beta(2, 9) };
    const of = (test: typeof good, prevalence: { alpha: number; beta: number }) =>
      drawn(
        { ...flatPopulations, priors: { tests: [test, test], populations: [prevalence, prevalence] } },
        { draws: 4000 },
      ).values;
    const here = of(good, beta(2, 3));
    const there = of(bad, beta(3, 2));
    const error = here.tests[0]?.sensitivity.monteCarloError ?? 0;
    expectClose(1 - (there.tests[0]?.specificity.mean ?? 0), here.tests[0]?.sensitivity.mean ?? 9, {
      absolute: 6 * error,
    });
  });
});

describe("priors and data", () => {
  const certain = { sensitivity: beta(1e6, 1), specificity: beta(1e6, 1) };
  const kit = (prior: { alpha: number; beta: number }): BayesianInput => ({
    tests: ["kit", "reference"],
    populations: [
      {
        label: "all",
        patterns: [
          { reactive: [true, true], people: 46 },
          { reactive: [false, true], people: 4 },
          { reactive: [true, false], people: 2 },
          { reactive: [false, false], people: 98 },
        ],
      },
    ],
    dependence: { kind: "independent" },
    priors: { tests: [{ sensitivity: prior, specificity: FLAT }, certain], populations: [FLAT] },
  });

  it("p of conflict is that of two beta variables where the reference is all but perfect", () => {
    const found = drawn(kit(beta(30, 10)), { draws: 500 });
    const { p } = found.values.conflict.find(({ parameter }) => parameter === "tests.0.sensitivity") ?? {};
    // R 4.2.2: f <- integrate(function(x) pbeta(x, 30, 10) * dbeta(x, 47, 5), 0, 1)$value; 2 * min(f, 1 - f).
    expectClose(p, 0.04407581, { absolute: 0.008 });
    expect(found.notes).toContainEqual(
      expect.objectContaining({ code: "prior_conflict", path: "tests.0.sensitivity" }),
    );
    expect(valueAt(found.values, "tests.0.sensitivity.outsidePrior")).toBe(p);
  });

  it("a flat prior speaks against nothing, nor does a prior that the data bear out", () => {
    const flat = drawn(kit(FLAT), { draws: 500 }).values.tests[0];
    expect(flat?.sensitivity.outsidePrior).toBe(1);
    expect(drawn(kit(beta(23, 2)), { draws: 500 }).values.tests[0]?.sensitivity.outsidePrior).toBeGreaterThan(
      0.5,
    );
  });

  it("with an all but perfect reference the sensitivity has the beta posterior of its counts", () => {
    const { sensitivity } = drawn(kit(FLAT), { draws: 10_000 }).values.tests[0] ?? {};
    // Beta(47, 5): mean 47/52, variance by the formula of any handbook.
    const error = sensitivity?.monteCarloError ?? 0;
    expectClose(sensitivity?.mean, 47 / 52, { absolute: 4 * error });
    expectClose(sensitivity?.standardDeviation, Math.sqrt((47 * 5) / (52 ** 2 * 53)), { relative: 0.02 });
  });

  it("people who err together and are held not to are found out by the predictive check", () => {
    const people = [300, 20, 20, 5, 20, 5, 5, 125];
    const odd = people.map((seen, x) => ({
      reactive: [0, 1, 2].map((test) => ((x >> test) & 1) === 1),
      people: x === 3 ? 90 : seen,
    }));
    const input = {
      ...sharedThree,
      populations: [
        { label: "one", patterns: odd },
        {
          label: "other",
          patterns: odd.map(({ reactive, people: seen }, x) => ({
            reactive,
            people: x === 3 ? 5 : 2 * seen,
          })),
        },
      ],
      dependence: { kind: "independent" as const },
      priors: { ...sharedThree.priors, populations: [FLAT, FLAT] },
    };
    const found = drawn(input, { draws: 1000 });
    expect(found.values.check.overall.p).toBeLessThan(0.01);
    expect(codesOf(found)).toContain("poor_fit");
    const fitting = drawn(thirdSometimes, { draws: 1000 });
    expect(fitting.values.check.overall.p).toBeGreaterThan(0.05);
    const expected = fitting.values.check.patterns.reduce((sum, pattern) => sum + (pattern.expected ?? 0), 0);
    expectClose(expected, 250, { relative: 1e-9 });
  });

  it("counts what the people alone could tell apart", () => {
    expect(drawn(onePopulation, { draws: 100 }).values.identified).toEqual({
      rank: 3,
      unknowns: 5,
      byDataAlone: false,
    });
    expect(drawn(flatPopulations, { draws: 100 }).values.identified.byDataAlone).toBe(true);
    expect(drawn(dependentPopulations, { draws: 100 }).values.identified.byDataAlone).toBe(false);
  });

  it("gives the prior where nobody was seen", () => {
    const input = {
      ...onePopulation,
      populations: [{ label: "all", patterns: [{ reactive: [true, true], people: 0 }] }],
    };
    const found = drawn(input, { draws: 5000 });
    expect(faultsOf(found)).toEqual([]);
    const { sensitivity } = found.values.tests[0] ?? {};
    expectClose(sensitivity?.mean, 21.96 / 27.45, { absolute: 4 * (sensitivity?.monteCarloError ?? 0) });
    expect(found.values.check.overall.p).toBeNull();
  });
});

it.each<[BayesianInput, string]>([
  [{ ...onePopulation, priors: { ...onePopulation.priors, tests: [] } }, "input.priors.tests"],
  [{ ...onePopulation, priors: { ...onePopulation.priors, populations: [] } }, "input.priors.populations"],
  [
    { ...onePopulation, priors: { ...onePopulation.priors, populations: [beta(0, 1)] } },
    "input.priors.populations.0.alpha",
  ],
])("refuses priors that do not fit %#", (input, path) => {
  expect(() => drawn(input)).toThrow(InputError);
  expect(() => drawn(input)).toThrow(`${path}: `);
});
