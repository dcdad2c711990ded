import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { twoTests } from "../../../src/methods/algorithms/two-tests.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const KIT = { sensitivity: 0.99, specificity: 0.98 };
const KITS = {
  first: { sensitivity: 0.92, specificity: 0.96 },
  second: { sensitivity: 0.8, specificity: 0.99 },
};
const independent = { kind: "independent" } as const;
const phi = (both: number) => ({ kind: "phi" as const, diseased: both, nondiseased: both });
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const kit = fc.record({ sensitivity: share, specificity: share });

describe("two tests together", () => {
  // Two kits of 99 / 98 %: 1 / (1 + (1 - p) both false / (p both true)) in per cent, by arithmetic, two decimals.
  it.each([
    [0.001, 0, 71.04],
    [0.005, 0, 92.49],
    [0.01, 0, 96.12],
    [0.02, 0, 98.04],
    [0.05, 0, 99.23],
    [0.2, 0, 99.84],
    [0.05, 0.05, 97.4],
    [0.05, 0.1, 95.63],
    [0.05, 0.2, 92.29],
    [0.01, 0.05, 87.77],
    [0.01, 0.1, 80.77],
    [0.01, 0.2, 69.66],
  ])("at a prevalence of %d and an error correlation of %d a PPV of %d %%", (prevalence, both, percent) => {
    const asked = { first: KIT, second: KIT, dependence: phi(both), prevalences: [prevalence] };
    const ppv = compute(twoTests, asked).values.serial.at[0]?.ppv ?? 0;
    expectClose(100 * ppv, percent, { absolute: 0.005 * (1 + 1e-9) });
  });

  it("are what people drawn one by one show", () => {
    const dependence = { kind: "covariance" as const, diseased: 0.04, nondiseased: 0.004 };
    const { values } = compute(twoTests, { ...KITS, dependence, prevalences: [0.1] });
    const random = randomStream(41);
    const people = 400_000;
    const seen = { serialTrue: 0, serialFalse: 0, parallelTrue: 0, parallelFalse: 0, diseased: 0 };
    for (let person = 0; person < people; person += 1) {
      const diseased = random() < 0.1;
      const [one, other, together] = diseased ? [0.92, 0.8, 0.04] : [0.04, 0.01, 0.004];
      const first = random() < one;
      // P(second | first) = second ± covariance / P(first result)
      const second = random() < (first ? other + together / one : other - together / (1 - one));
      seen.diseased += Number(diseased);
      seen.serialTrue += Number(diseased && first && second);
      seen.serialFalse += Number(!diseased && first && second);
      seen.parallelTrue += Number(diseased && (first || second));
      seen.parallelFalse += Number(!diseased && (first || second));
    }
    const near = (count: number, total: number, expected: number | null | undefined) => {
      const value = expected ?? Number.NaN;
      expectClose(count / total, value, { absolute: 4.5 * Math.sqrt((value * (1 - value)) / total) });
    };
    const healthy = people - seen.diseased;
    near(seen.serialTrue, seen.diseased, values.serial.sensitivity);
    near(healthy - seen.serialFalse, healthy, values.serial.specificity);
    near(seen.parallelTrue, seen.diseased, values.parallel.sensitivity);
    near(healthy - seen.parallelFalse, healthy, values.parallel.specificity);
    near(seen.serialTrue, seen.serialTrue + seen.serialFalse, values.serial.at[0]?.ppv);
    near(seen.parallelTrue, seen.parallelTrue + seen.parallelFalse, values.parallel.at[0]?.ppv);
  });

  it("independent: the textbook's products", () => {
    fc.assert(
      fc.property(kit, kit, share, (first, second, prevalence) => {
        const asked = { first, second, dependence: independent, prevalences: [prevalence] };
        const { values } = compute(twoTests, asked);
        const close = { relative: 1e-12, absolute: 1e-15 };
        expectClose(values.serial.sensitivity, first.sensitivity * second.sensitivity, close);
        expectClose(values.serial.specificity, 1 - (1 - first.specificity) * (1 - second.specificity), close);
        expectClose(
          values.parallel.sensitivity,
          1 - (1 - first.sensitivity) * (1 - second.sensitivity),
          close,
        );
        expectClose(values.parallel.specificity, first.specificity * second.specificity, close);
        expect(values.independent).toEqual({ serial: values.serial, parallel: values.parallel });
      }),
    );
  });

  it("keep the margins, and have the stated correlation, anywhere between the bounds", () => {
    fc.assert(
      fc.property(kit, kit, share, share, (first, second, place, other) => {
        const { values } = compute(twoTests, { first, second, dependence: independent, prevalences: [0.1] });
        const at = (truth: "diseased" | "nondiseased", part: number) =>
          (values[truth].lowestPhi ?? 0) * (1 - part) + (values[truth].highestPhi ?? 0) * part;
        const dependence = {
          kind: "phi" as const,
          diseased: at("diseased", place),
          nondiseased: at("nondiseased", other),
        };
        const found = compute(twoTests, { first, second, dependence, prevalences: [0.1] });
        expect(faultsOf(found)).toEqual([]);
        for (const truth of ["diseased", "nondiseased"] as const) {
          const cells = found.values[truth];
          const of = (name: "bothReactive" | "firstOnly" | "secondOnly" | "neither") => cells[name] ?? -1;
          const one = truth === "diseased" ? first.sensitivity : 1 - first.specificity;
          const two = truth === "diseased" ? second.sensitivity : 1 - second.specificity;
          const close = { absolute: 1e-12 };
          expectClose(of("bothReactive") + of("firstOnly"), one, close);
          expectClose(of("bothReactive") + of("secondOnly"), two, close);
          expectClose(of("secondOnly") + of("neither"), 1 - one, close);
          expectClose(cells.phi, dependence[truth], close);
        }
        const asCovariance = {
          kind: "covariance" as const,
          diseased: found.values.diseased.covariance ?? 0,
          nondiseased: found.values.nondiseased.covariance ?? 0,
        };
        const again = compute(twoTests, { first, second, dependence: asCovariance, prevalences: [0.1] });
        expectClose(again.values.serial.at[0]?.ppv, found.values.serial.at[0]?.ppv ?? -1, { relative: 1e-9 });
      }),
    );
  });

  it("at the bounds leave one cell empty, and beyond are refused with the bounds", () => {
    const { diseased } = compute(twoTests, { ...KITS, dependence: independent, prevalences: [0.1] }).values;
    const at = (covariance: number) =>
      compute(twoTests, {
        ...KITS,
        dependence: { kind: "covariance", diseased: covariance, nondiseased: 0 },
        prevalences: [0.1],
      });
    // .92 × .8: at most .8 - .736 = .064, at least .72 - .736 = -.016.
    expectClose(diseased.highestCovariance, 0.064, { relative: 1e-12 });
    expectClose(diseased.lowestCovariance, -0.016, { relative: 1e-12 });
    expectClose(at(0.064).values.diseased.secondOnly, 0, { absolute: 1e-15 });
    expectClose(at(-0.016).values.diseased.neither, 0, { absolute: 1e-15 });
    expect(() => at(0.0641)).toThrow(InputError);
    expect(() => at(0.0641)).toThrow(
      /^input.dependence.diseased: expected a covariance from -0.01\d+ to 0.06/,
    );
    expect(() => at(-0.0161)).toThrow("input.dependence.diseased");
    const asPhi = { ...KITS, dependence: phi(0.5), prevalences: [0.1] };
    expect(() => compute(twoTests, asPhi)).toThrow(
      /^input.dependence.nondiseased: expected a correlation from/,
    );
  });

  it("say so where nobody has a result, or a result never varies", () => {
    const perfect = { sensitivity: 1, specificity: 1 };
    const asked = { first: perfect, second: KIT, dependence: independent, prevalences: [0, 0.5, 1] };
    const found = compute(twoTests, asked);
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.serial.at.map(({ ppv }) => ppv)).toEqual([null, 1, 1]);
    expect(found.values.diseased).toMatchObject({ phi: null, lowestPhi: null, covariance: 0 });
    expect(new Set(found.notes.map(({ code }) => code))).toEqual(new Set(["nobody", "no_variation"]));
  });

  it("demand that the dependence is said", () => {
    const bare: unknown = { ...KITS, prevalences: [0.1] };
    expect(() => compute(twoTests, bare as Parameters<typeof twoTests.run>[0])).toThrow("input.dependence");
  });
});
