import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { type RandomSource, randomStream } from "../../../src/core/random.ts";
import { observedDependence } from "../../../src/methods/algorithms/observed-dependence.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

interface Counts {
  bothReactive: number;
  firstOnly: number;
  secondOnly: number;
  neither: number;
}
const table = (bothReactive: number, firstOnly: number, secondOnly: number, neither: number): Counts => ({
  bothReactive,
  firstOnly,
  secondOnly,
  neither,
});
const PLENTY = table(180, 6, 9, 5);

/** People drawn one by one whose two results have these shares and this phi. */
function drawn(people: number, first: number, second: number, phi: number, random: RandomSource): Counts {
  const both = first * second + phi * Math.sqrt(first * (1 - first) * second * (1 - second));
  const counts = table(0, 0, 0, 0);
  for (let person = 0; person < people; person += 1) {
    const at = random();
    if (at < both) counts.bothReactive += 1;
    else if (at < first) counts.firstOnly += 1;
    else if (at < first + second - both) counts.secondOnly += 1;
    else counts.neither += 1;
  }
  return counts;
}

type Method = "jeffreys" | "bootstrap" | "delta";

/** In which share of studies the interval holds the true phi, and the true covariance. */
function coverage(people: number, first: number, second: number, phi: number, method: Method, studies = 800) {
  const random = randomStream(61, people);
  const covariance = phi * Math.sqrt(first * (1 - first) * second * (1 - second));
  const held = { phi: 0, covariance: 0 };
  const holds = ({ lower, upper }: { lower: number | null; upper: number | null }, truth: number) =>
    Number(lower !== null && upper !== null && lower <= truth && truth <= upper);
  for (let study = 0; study < studies; study += 1) {
    const nondiseased = drawn(people, first, second, phi, random);
    const asked = { diseased: table(0, 0, 0, 0), nondiseased };
    const found = compute(observedDependence, asked, { method, draws: 600, seed: study }).values.nondiseased;
    held.phi += holds(found.phi, phi) / studies;
    held.covariance += holds(found.covariance, covariance) / studies;
  }
  return held;
}

describe("observed dependence", () => {
  // Measured over these 800 studies each (standard error .008): phi .961, .968, .973, .973, .958, .946, .971, .946,
  // .949, .935, .938, .946; covariance .912 (phi of 1) to .980. The bars are for phi the level less four standard
  // errors, for covariance .9.
  it.each([
    [300, 0.02, 0.01, 0],
    [300, 0.02, 0.01, 0.1],
    [300, 0.02, 0.01, 0.3],
    [1000, 0.02, 0.01, 0.05],
    [1000, 0.02, 0.02, 0.2],
    [100, 0.02, 0.02, 0.1],
    [100, 0.96, 0.92, 0.2],
    [200, 0.98, 0.96, 0.4],
    [150, 0.5, 0.4, 0.3],
    [1000, 0.005, 0.005, 0.5],
    [5000, 0.01, 0.01, 0.1],
    [300, 0.01, 0.01, 1],
  ])("%i people, shares %d and %d: the default limits hold a phi of %d as often as they say", (...truth) => {
    const held = coverage(...truth, "jeffreys");
    expect(held.phi).toBeGreaterThan(0.95 - 4 * 0.008);
    expect(held.covariance).toBeGreaterThan(0.9);
  });

  it("bootstrap and delta do as well with many errors, and fail with few, as the caution says", () => {
    for (const method of ["bootstrap", "delta"] as const) {
      expect(coverage(200, 0.5, 0.4, 0.3, method, 400).phi).toBeGreaterThan(0.91);
      expect(coverage(300, 0.02, 0.01, 0, method, 400).phi).toBeLessThan(0.3);
    }
  });

  it("has the phi, the covariance and the bounds that counting gives", () => {
    fc.assert(
      fc.property(
        fc.tuple(...Array.from({ length: 4 }, () => fc.integer({ min: 1, max: 200 }))),
        ([both = 1, first = 1, second = 1, neither = 1]) => {
          const diseased = table(both, first, second, neither);
          const turned = table(both, second, first, neither);
          const reversed = table(neither, second, first, both);
          const asked = { diseased, nondiseased: turned };
          const { values } = compute(observedDependence, asked, { draws: 100 });
          const people = both + first + second + neither;
          const [one, other] = [(both + first) / people, (both + second) / people];
          const found = values.diseased;
          const close = { absolute: 1e-12 };
          expectClose(found.covariance.value, both / people - one * other, close);
          expectClose(found.phi.value, values.nondiseased.phi.value ?? -2, close, "kits exchanged");
          const mirror = compute(
            observedDependence,
            { diseased: reversed, nondiseased: reversed },
            { draws: 100 },
          );
          expectClose(mirror.values.diseased.phi.value, found.phi.value ?? -2, close, "results reversed");
          expect(found.phi.value).toBeGreaterThanOrEqual((found.lowestPhi ?? 2) - 1e-12);
          expect(found.phi.value).toBeLessThanOrEqual((found.highestPhi ?? -2) + 1e-12);
          expectClose(found.bothWrong.ifIndependent, people * (1 - one) * (1 - other), { relative: 1e-9 });
          expectClose(values.nondiseased.bothWrong.ifIndependent, people * one * other, { relative: 1e-9 });
        },
      ),
      { numRuns: 60 },
    );
  });

  it("says what both kits get wrong, here and among 100,000", () => {
    const asked = { diseased: PLENTY, nondiseased: table(3, 5, 4, 488) };
    const { nondiseased, diseased } = compute(observedDependence, asked, { people: 100_000 }).values;
    expect(nondiseased.bothWrong.observed).toMatchObject({ count: 3, total: 500 });
    // 500 × 8/500 × 7/500, by hand.
    expectClose(nondiseased.bothWrong.ifIndependent, 0.112, { relative: 1e-12 });
    expectClose(nondiseased.bothWrong.perPeople, 600, { relative: 1e-12 });
    expectClose(nondiseased.bothWrong.perPeopleIfIndependent, 22.4, { relative: 1e-12 });
    expect(diseased.bothWrong.observed).toMatchObject({ count: 5, total: 200 });
  });

  it("still says what is possible where a kit never erred", () => {
    const found = compute(observedDependence, { diseased: PLENTY, nondiseased: table(0, 4, 0, 296) });
    expect(faultsOf(found)).toEqual([]);
    const { phi, fisher, covariance } = found.values.nondiseased;
    expect(phi.value).toBeNull();
    expect(phi.lower).toBeLessThan(0);
    expect(phi.upper).toBeGreaterThan(0.3);
    expect(covariance.value).toBe(0);
    expect(fisher.twoSided).toBeNull();
    for (const method of ["bootstrap", "delta"] as const) {
      const other = compute(
        observedDependence,
        { diseased: PLENTY, nondiseased: table(0, 4, 0, 296) },
        { method },
      );
      expect(faultsOf(other)).toEqual([]);
      expect(other.values.nondiseased.phi).toEqual({ value: null, lower: null, upper: null });
      expect(other.notes.some(({ code }) => code === "too_narrow")).toBe(true);
    }
  });

  it("gives null with a note where nobody was tested", () => {
    const found = compute(observedDependence, { diseased: PLENTY, nondiseased: table(0, 0, 0, 0) });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.nondiseased).toMatchObject({ people: 0, phi: { value: null }, highestPhi: null });
    expect(found.values.diseased.phi.value).not.toBeNull();
  });

  it("is the same again for the same seed, and nearly so for another", () => {
    const asked = { diseased: PLENTY, nondiseased: table(3, 5, 4, 488) };
    const of = (seed: number) => compute(observedDependence, asked, { seed }).values;
    expect(of(7)).toEqual(of(7));
    expect(of(8)).not.toEqual(of(7));
    const [one, other] = [of(7).nondiseased.phi, of(8).nondiseased.phi];
    expectClose(one.upper, other.upper ?? -1, { absolute: 0.03 });
  });

  it.each([
    [{ ...table(1, 2, 3, 4), neither: -1 }, {}, "input.diseased.neither"],
    [{ ...table(1, 2, 3, 4), firstOnly: 0.5 }, {}, "input.diseased.firstOnly"],
    [PLENTY, { level: 1 }, "options.level"],
    [PLENTY, { draws: 10 }, "options.draws"],
  ])("refuses %j with %j", (diseased, options, path) => {
    const run = () => compute(observedDependence, { diseased, nondiseased: PLENTY }, options);
    expect(run).toThrow(InputError);
    expect(run).toThrow(`${path}: `);
  });
});
