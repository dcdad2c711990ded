import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { exactPosteriorMethod } from "../../../src/methods/reference/exact-posterior.ts";
import type { ExactInput } from "../../../src/methods/reference/exact-posterior-fields.ts";
import { betaQuantile } from "../../../src/numeric/beta-quantile.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { exactOpinions } from "./exact-opinions.ts";

type Shapes = readonly [number, number];
const beta = ([alpha, beta]: Shapes) => ({ alpha, beta });

/** Counts and priors in the order of the second opinions. */
function inputOf(counts: readonly number[], priors: readonly Shapes[]): ExactInput {
  const tests = counts.length === 2 ? ["kit"] : ["kit", "reference"];
  const results = tests.length === 1 ? [[true], [false]] : FOUR;
  const [prevalence, ...accuracies] = priors.map(beta);
  return {
    tests,
    populations: [
      {
        label: "all",
        patterns: results.map((reactive, place) => ({ reactive, people: counts[place] ?? -1 })),
      },
    ],
    priors: {
      populations: [prevalence ?? beta([1, 1])],
      tests: tests.map((_, test) => ({
        sensitivity: accuracies[2 * test] ?? beta([1, 1]),
        specificity: accuracies[2 * test + 1] ?? beta([1, 1]),
      })),
    },
  };
}
const FOUR = [
  [true, true],
  [true, false],
  [false, true],
  [false, false],
];
const found = (counts: readonly number[], priors: readonly Shapes[]) =>
  compute(exactPosteriorMethod, inputOf(counts, priors));

/** In the order of the priors. */
const sharesOf = ({ populations, tests }: ReturnType<typeof found>["values"]) => [
  ...populations.map(({ prevalence }) => prevalence),
  ...tests.flatMap(({ sensitivity, specificity }) => [sensitivity, specificity]),
];

describe("exact posteriors", () => {
  it.each(exactOpinions.exact)(
    "$name: as R's integrals over all unknowns, without latent counts",
    (opinion) => {
      const finding = found(opinion.counts, opinion.priors);
      expect(faultsOf(finding)).toEqual([]);
      const { values } = finding;
      expectClose(values.evidence.logProbability, opinion.logEvidence, { relative: 1e-10 }, "evidence");
      sharesOf(values).forEach((share, place) => {
        const [mean, deviation, median, lower, upper] = opinion.shares[place] ?? [];
        expectClose(share.mean, mean ?? -1, { relative: 1e-10 }, `mean ${place}`);
        expectClose(share.standardDeviation, deviation ?? -1, { relative: 1e-9 }, `deviation ${place}`);
        expectClose(share.median, median ?? -1, { relative: 1e-9 }, `median ${place}`);
        expectClose(share.lower, lower ?? -1, { relative: 1e-8 }, `lower ${place}`);
        expectClose(share.upper, upper ?? -1, { relative: 1e-9 }, `upper ${place}`);
      });
      opinion.predictive.forEach((expected, side) => {
        const share = side === 0 ? values.tests[0]?.ppv : values.tests[0]?.npv;
        const ours = [share?.mean, share?.median, share?.lower, share?.upper];
        ours.forEach((part, k) => {
          expectClose(part, expected[k] ?? -1, { relative: 1e-9 }, `predictive ${side} ${k}`);
        });
      });
    },
  );

  it("the probabilities of all tables of three people add up to 1", () => {
    const priors: Shapes[] = [
      [0.7, 2],
      [4.4, 1.3],
      [6, 0.9],
      [2, 2],
      [3.5, 1.5],
    ];
    let sum = 0;
    for (let a = 0; a <= 3; a += 1) {
      for (let b = 0; a + b <= 3; b += 1) {
        for (let c = 0; a + b + c <= 3; c += 1) {
          sum += Math.exp(
            found([a, b, c, 3 - a - b - c], priors).values.evidence.logProbability ?? Number.NaN,
          );
        }
      }
    }
    expectClose(sum, 1, { relative: 1e-12 });
  });

  it("the mean predictive value of one test is the mean share of those with its result", () => {
    const { tests, patterns } = found(
      [125, 37],
      [
        [1, 1],
        [21.96, 5.49],
        [4.1, 1.76],
      ],
    ).values;
    expectClose(tests[0]?.ppv.mean, (patterns[0]?.diseased ?? -1) / 125, { relative: 1e-11 });
    expectClose(tests[0]?.npv.mean, 1 - (patterns[1]?.diseased ?? -1) / 37, { relative: 1e-11 });
  });

  it("a test known to be perfect leaves the beta of plain counting", () => {
    const { populations } = found(
      [30, 70],
      [
        [2, 3],
        [1e9, 1],
        [1e9, 1],
      ],
    ).values;
    const prevalence = populations[0]?.prevalence;
    expectClose(prevalence?.mean, 32 / 105, { relative: 1e-7 });
    expectClose(prevalence?.lower, betaQuantile(0.025, 32, 73), { relative: 1e-7 });
    expectClose(prevalence?.upper, betaQuantile(0.975, 32, 73), { relative: 1e-7 });
  });

  it("nobody seen: the posterior is the prior", () => {
    const { tests, evidence } = found(
      [0, 0],
      [
        [1, 2],
        [9, 2],
        [7, 1.5],
      ],
    ).values;
    expectClose(evidence.logProbability, 0, { absolute: 1e-14 });
    for (const share of [tests[0]?.sensitivity, tests[0]?.ppv, tests[0]?.npv]) {
      for (const part of ["mean", "median", "lower", "upper"] as const) {
        expectClose(share?.[part], share?.prior[part] ?? -1, { relative: 1e-9 }, part);
      }
    }
  });

  it("tests in the other order, and results read the other way round, change nothing but places", () => {
    const priors: Shapes[] = [
      [1, 2],
      [8, 2],
      [9, 1],
      [3, 2],
      [6, 1.5],
    ];
    const [prev, seOne, spOne, seTwo, spTwo] = priors as [Shapes, Shapes, Shapes, Shapes, Shapes];
    const here = found([9, 4, 3, 20], priors).values;
    const swapped = found([9, 3, 4, 20], [prev, seTwo, spTwo, seOne, spOne]).values;
    const turned = found([20, 3, 4, 9], [[prev[1], prev[0]], spOne, seOne, spTwo, seTwo]).values;
    for (const part of ["mean", "median", "standardDeviation", "lower", "upper"] as const) {
      for (const share of ["sensitivity", "specificity", "ppv", "npv"] as const) {
        expectClose(swapped.tests[1]?.[share][part], here.tests[0]?.[share][part] ?? -1, { relative: 1e-9 });
      }
      for (const [one, other] of [
        ["sensitivity", "specificity"],
        ["ppv", "npv"],
      ] as const) {
        expectClose(turned.tests[0]?.[one][part], here.tests[0]?.[other][part] ?? -1, { relative: 1e-9 });
      }
    }
    expectClose(turned.patterns[3]?.diseased, 9 - (here.patterns[0]?.diseased ?? -1), { relative: 1e-9 });
  });

  it("densities are densities: their area over the range drawn is what the limits leave", () => {
    const { tests } = found(
      [14, 30],
      [
        [1, 1],
        [12, 2],
        [18, 2],
      ],
    ).values;
    for (const share of ["sensitivity", "ppv"] as const) {
      const points = tests[0]?.[share].density ?? [];
      expect(points).toHaveLength(61);
      const area = (which: "posterior" | "prior") =>
        points.slice(1).reduce((sum, point, k) => {
          const before = points[k] ?? point;
          return sum + ((point[which] + before[which]) / 2) * (point.at - before.at);
        }, 0);
      // The trapezoidal rule over 61 points is no better than this beside a sharp peak.
      expectClose(area("posterior"), 0.999, { absolute: 5e-3 }, share);
    }
  });

  it("shapes near 0 and cells without people leave every number finite", () => {
    for (const counts of [
      [0, 40],
      [40, 0],
      [12, 0, 0, 0],
      [0, 0, 3, 9],
    ]) {
      const priors = Array.from({ length: counts.length === 2 ? 3 : 5 }, (): Shapes => [0.5, 0.3]);
      expect(faultsOf(found(counts, priors))).toEqual([]);
    }
  });

  it("says so where a shape next to 0 would take predictive values too long", () => {
    const finding = found(
      [3, 9],
      [
        [1, 1],
        [9, 1e-4],
        [9, 1e-4],
      ],
    );
    expect(finding.values.tests[0]?.ppv.mean).toBeNull();
    expect(finding.values.tests[0]?.sensitivity.mean).toBeGreaterThan(0.9);
    expect(faultsOf(finding)).toEqual([]);
    expect(finding.notes.some(({ code }) => code === "too_long")).toBe(true);
  });

  it("says that the rest is the priors', and where they leave the naming open", () => {
    const flat = Array.from({ length: 5 }, (): Shapes => [1, 1]);
    const codes = found([9, 4, 3, 20], flat).notes.map(({ code }) => code);
    expect(codes).toEqual(["rests_on_priors", "naming_open", "independence"]);
  });

  it.each<[string, (input: ExactInput) => unknown, string]>([
    ["too many ways", () => inputOf([900, 40, 30, 370], FLAT), "input.populations.0.patterns"],
    [
      "a missing result",
      (input) => withPattern(input, [true, null]),
      "input.populations.0.patterns.0.reactive.1",
    ],
    ["a short pattern", (input) => withPattern(input, [true]), "input.populations.0.patterns.0.reactive"],
    ["a name used twice", (input) => ({ ...input, tests: ["kit", "kit"] }), "input.tests.1"],
    [
      "priors of one test alone",
      ({ priors, ...input }) => ({ ...input, priors: { ...priors, tests: priors.tests.slice(0, 1) } }),
      "input.priors.tests",
    ],
  ])("refuses %s", (_, change, path) => {
    const asked = change(inputOf([9, 4, 3, 20], FLAT)) as ExactInput;
    expect(() => compute(exactPosteriorMethod, asked)).toThrow(InputError);
    expect(() => compute(exactPosteriorMethod, asked)).toThrow(`${path}: `);
  });
});

const FLAT = Array.from({ length: 5 }, (): Shapes => [1, 1]);
const withPattern = (input: ExactInput, reactive: (boolean | null)[]) => ({
  ...input,
  populations: [{ label: "all", patterns: [{ reactive, people: 3 }] }],
});
