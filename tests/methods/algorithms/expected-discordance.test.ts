import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { expectedDiscordance } from "../../../src/methods/algorithms/expected-discordance.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

const value = (share: number) => ({ kind: "value" as const, value: share });
const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const KITS = {
  first: { sensitivity: value(0.97), specificity: value(0.98) },
  second: { sensitivity: value(0.95), specificity: value(0.99) },
};
const DEPENDENT = { kind: "phi" as const, diseased: 0.2, nondiseased: 0.15 };
const PLAIN = { ...KITS, dependence: DEPENDENT, prevalence: 0.04, observed: null };
const seen = (firstReactive: number, secondNonreactive: number, tested = 1000) => ({
  ...PLAIN,
  observed: { tested, firstReactive, secondNonreactive },
});

describe("discordance to expect", () => {
  it("is what people drawn one by one show, and the level holds its studies", () => {
    const { values } = compute(expectedDiscordance, PLAIN);
    const random = randomStream(71);
    const people = 400_000;
    let [first, discordant, diseasedDiscordant] = [0, 0, 0];
    for (let person = 0; person < people; person += 1) {
      const diseased = random() < 0.04;
      const [one, other, phi] = diseased ? [0.97, 0.95, 0.2] : [0.02, 0.01, 0.15];
      if (random() >= one) continue;
      first += 1;
      // P(second reactive | first reactive) = q + phi sqrt(p (1 - p) q (1 - q)) / p
      const again = other + (phi * Math.sqrt(one * (1 - one) * other * (1 - other))) / one;
      if (random() < again) continue;
      discordant += 1;
      diseasedDiscordant += Number(diseased);
    }
    const near = (count: number, total: number, expected: number | null) => {
      const share = expected ?? Number.NaN;
      expectClose(count / total, share, { absolute: 4.5 * Math.sqrt((share * (1 - share)) / total) });
    };
    near(first, people, values.firstReactive.value);
    near(discordant, first, values.discordant.value);
    near(diseasedDiscordant, discordant, values.diseasedAmongDiscordant);
  });

  it("has exact p-values and limits: all results of 40 added up", () => {
    const share = compute(expectedDiscordance, PLAIN).values.discordant.value ?? -1;
    const masses = binomialMasses(40, share);
    const sum = (from: number, to: number) =>
      masses.slice(from, to + 1).reduce((total, mass) => total + mass, 0);
    for (const count of [0, 5, 12, 20, 40]) {
      const { discordance } = compute(expectedDiscordance, seen(40, count)).values;
      const bar = (masses[count] ?? 0) * (1 + 1e-7);
      const twoSided = masses.filter((mass) => mass <= bar).reduce((total, mass) => total + mass, 0);
      expectClose(discordance?.twoSided, twoSided, { relative: 1e-9 });
      expectClose(discordance?.asMany, sum(count, 40), { relative: 1e-9 });
      expectClose(discordance?.asFew, sum(0, count), { relative: 1e-9 });
      const [lower, upper] = [discordance?.lower ?? -1, discordance?.upper ?? -1];
      expect(sum(lower, upper)).toBeGreaterThanOrEqual(0.95);
      expect(sum(0, lower - 1)).toBeLessThanOrEqual(0.025);
      expect(sum(upper + 1, 40)).toBeLessThanOrEqual(0.025);
    }
  });

  it("grows as the condition gets rarer, and shrinks with shared false positives", () => {
    const at = (prevalence: number, phi: number) =>
      compute(expectedDiscordance, {
        ...PLAIN,
        prevalence,
        dependence: { kind: "phi", diseased: 0, nondiseased: phi },
      }).values.discordant.value ?? -1;
    expect(at(0.01, 0.1)).toBeGreaterThan(at(0.02, 0.1));
    expect(at(0.01, 0.1)).toBeLessThan(at(0.01, 0));
    expectClose(compute(expectedDiscordance, PLAIN).values.ifIndependent, at(0.04, 0), { relative: 1e-13 });
  });

  it("of kits known from huge studies is that of kits known", () => {
    const million = (share: number) => counts(share * 1e8, 1e8);
    const unsure = {
      ...seen(60, 40),
      first: { sensitivity: million(0.97), specificity: million(0.98) },
      second: { sensitivity: million(0.95), specificity: million(0.99) },
    };
    const found = compute(expectedDiscordance, unsure, { draws: 2000 });
    expect(faultsOf(found)).toEqual([]);
    const exact = compute(expectedDiscordance, seen(60, 40)).values;
    expectClose(found.values.discordant.lower, exact.discordant.value ?? -1, { relative: 1e-3 });
    expectClose(found.values.discordant.upper, exact.discordant.value ?? -1, { relative: 1e-3 });
    expectClose(found.values.discordance?.asMany, exact.discordance?.asMany ?? -1, { relative: 0.02 });
    expectClose(found.values.positivity?.asFew, exact.positivity?.asFew ?? -1, { relative: 0.02 });
  });

  it("of kits known from small studies is less sure, and rejects less", () => {
    const unsure = {
      ...seen(60, 40),
      first: { sensitivity: counts(97, 100), specificity: counts(98, 100) },
      second: { sensitivity: counts(95, 100), specificity: counts(99, 100) },
    };
    const found = compute(expectedDiscordance, unsure).values;
    const exact = compute(expectedDiscordance, seen(60, 40)).values;
    expect(found.discordance?.twoSided).toBeGreaterThan(exact.discordance?.twoSided ?? 1);
    expect(found.discordance?.lower).toBeLessThan(exact.discordance?.lower ?? 0);
    expect(found.discordance?.upper).toBeGreaterThan(exact.discordance?.upper ?? 60);
    expect(compute(expectedDiscordance, unsure).values).toEqual(found);
  });

  it("holds what programmes with drawn kits show as often as its level says", () => {
    const unsure = {
      ...seen(60, 30),
      first: { sensitivity: value(1), specificity: { kind: "beta" as const, a: 98, b: 2 } },
      second: { sensitivity: value(1), specificity: value(0.99) },
      dependence: { kind: "independent" as const },
    };
    const { discordance } = compute(expectedDiscordance, unsure).values;
    const random = randomStream(72);
    const programmes = 20_000;
    let held = 0;
    for (let programme = 0; programme < programmes; programme += 1) {
      // Beta(98, 2) as the second largest of 99 uniform numbers.
      let [largest, next] = [0, 0];
      for (let one = 0; one < 99; one += 1) {
        const drawn = random();
        if (drawn > largest) [largest, next] = [drawn, largest];
        else if (drawn > next) next = drawn;
      }
      const falsely = 0.96 * (1 - next);
      const share = (falsely * 0.99) / (0.04 + falsely);
      let count = 0;
      for (let person = 0; person < 60; person += 1) count += Number(random() < share);
      held += Number(count >= (discordance?.lower ?? 99) && count <= (discordance?.upper ?? -1));
    }
    expect(held / programmes).toBeGreaterThan(0.94);
    expect(held / programmes).toBeLessThan(0.975);
  });

  it("of a kit known by a range lies between its ends", () => {
    const at = (specificity: number) =>
      compute(expectedDiscordance, {
        ...PLAIN,
        dependence: { kind: "independent" },
        first: { sensitivity: value(0.97), specificity: value(specificity) },
      }).values.discordant.value ?? -1;
    const ranged = compute(
      expectedDiscordance,
      {
        ...PLAIN,
        dependence: { kind: "independent" },
        first: { sensitivity: value(0.97), specificity: { kind: "range", low: 0.96, high: 0.99 } },
      },
      { draws: 40_000 },
    ).values.discordant;
    expectClose(ranged.value, at(0.975), { relative: 1e-12 });
    // Evenly spread: 2.5 % of the draws lie below .96075, and 2.5 % above .98925.
    expectClose(ranged.upper, at(0.96075), { absolute: 0.002 });
    expectClose(ranged.lower, at(0.98925), { absolute: 0.004 });
  });

  it("counts the draws that don't allow the stated dependence", () => {
    const unsure = {
      ...PLAIN,
      first: { sensitivity: value(0.97), specificity: counts(98, 100) },
      second: { sensitivity: value(0.95), specificity: counts(99, 100) },
      dependence: { kind: "phi" as const, diseased: 0.2, nondiseased: 0.6 },
    };
    const found = compute(expectedDiscordance, unsure);
    expect(found.notes.find(({ code }) => code === "moved")?.message).toMatch(/^\d+ of 10000 draws/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says so where nobody is to be expected, or was seen", () => {
    const never = { sensitivity: value(0), specificity: value(1) };
    const independent = { kind: "independent" as const };
    const found = compute(expectedDiscordance, { ...seen(0, 0), first: never, dependence: independent });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toMatchObject({ discordant: { value: null }, discordance: null });
    const empty = compute(expectedDiscordance, seen(0, 0, 0));
    expect(faultsOf(empty)).toEqual([]);
    expect(empty.values).toMatchObject({ positivity: null, discordance: null });
  });

  it.each([
    [seen(1001, 3), "input.observed.firstReactive"],
    [seen(10, 11), "input.observed.secondNonreactive"],
    [{ ...PLAIN, prevalence: 0 }, "input.prevalence"],
    [
      { ...PLAIN, dependence: { kind: "phi" as const, diseased: 0, nondiseased: 0.9 } },
      "input.dependence.nondiseased",
    ],
    [
      { ...PLAIN, first: { sensitivity: counts(5, 4), specificity: value(0.9) } },
      "input.first.sensitivity.right",
    ],
    [
      {
        ...PLAIN,
        first: { sensitivity: { kind: "range" as const, low: 0.9, high: 0.8 }, specificity: value(0.9) },
      },
      "input.first.sensitivity.low",
    ],
  ])("refuses what makes no sense: %#", (input, path) => {
    expect(() => compute(expectedDiscordance, input)).toThrow(InputError);
    expect(() => compute(expectedDiscordance, input)).toThrow(`${path}: `);
  });
});
