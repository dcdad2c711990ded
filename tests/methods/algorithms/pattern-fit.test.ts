import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { patternFit } from "../../../src/methods/algorithms/pattern-fit.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const asked = (observed: readonly number[], probabilities: readonly number[]) => ({
  patterns: observed.map((people, place) => ({
    pattern: `pattern ${place}`,
    observed: people,
    probability: probabilities[place] ?? -1,
  })),
});

/** Every sequence of people, each with a pattern: the counts and their probability. */
function everySequence(people: number, probabilities: readonly number[]): Map<string, number> {
  let found = new Map([[probabilities.map(() => 0).join(), 1]]);
  for (let person = 0; person < people; person += 1) {
    const next = new Map<string, number>();
    for (const [key, mass] of found) {
      for (const [place, probability] of probabilities.entries()) {
        const counts = key.split(",").map(Number);
        counts[place] = (counts[place] ?? 0) + 1;
        next.set(counts.join(), (next.get(counts.join()) ?? 0) + mass * probability);
      }
    }
    found = next;
  }
  return found;
}

describe("the fit of result patterns", () => {
  it.each([
    [
      [4, 1, 0, 3],
      [0.35, 0.2, 0.15, 0.3],
    ],
    [
      [0, 5, 2],
      [0.5, 0.3, 0.2],
    ],
    [
      [9, 1],
      [0.7, 0.3],
    ],
  ])("of %j is what every sequence of people adds up to", (observed, probabilities) => {
    const people = observed.reduce((sum, count) => sum + count, 0);
    const every = everySequence(people, probabilities);
    const ratio = (counts: readonly number[]) =>
      counts.reduce(
        (sum, x, i) => (x === 0 ? sum : sum + 2 * x * Math.log(x / people / (probabilities[i] ?? 0))),
        0,
      );
    const square = (counts: readonly number[]) =>
      counts.reduce((sum, x, i) => {
        const expected = people * (probabilities[i] ?? 0);
        return sum + (x - expected) ** 2 / expected;
      }, 0);
    const tail = (isFar: (counts: number[], mass: number) => boolean) =>
      [...every].reduce(
        (sum, [key, mass]) => (isFar(key.split(",").map(Number), mass) ? sum + mass : sum),
        0,
      );
    const seen = every.get(observed.join()) ?? 0;
    const { values } = compute(patternFit, asked(observed, probabilities));
    const close = { relative: 1e-10 };
    expectClose(values.logProbability, Math.log(seen), close);
    expectClose(
      values.exact,
      tail((_, mass) => mass <= seen * (1 + 1e-9)),
      close,
      "by probability",
    );
    expectClose(
      values.likelihoodRatio.exact,
      tail((counts) => ratio(counts) >= ratio(observed) - 1e-9),
      close,
      "by G2",
    );
    expectClose(
      values.pearson.exact,
      tail((counts) => square(counts) >= square(observed) - 1e-9),
      close,
      "by X2",
    );
  });

  it("rejects a true model seldom, and about as often as it says for many people", () => {
    const probabilities = [0.4, 0.3, 0.2, 0.1];
    const random = randomStream(51);
    const studies = 1500;
    const rejected = { exact: 0, byExact: 0, byChiSquare: 0 };
    for (let study = 0; study < studies; study += 1) {
      const observed = [0, 0, 0, 0];
      for (let person = 0; person < 60; person += 1) {
        let at = random();
        const place = probabilities.findIndex((probability) => {
          at -= probability;
          return at < 0;
        });
        observed[place < 0 ? 3 : place] = (observed[place < 0 ? 3 : place] ?? 0) + 1;
      }
      const { values } = compute(patternFit, asked(observed, probabilities));
      rejected.exact += Number((values.exact ?? 1) <= 0.05);
      rejected.byExact += Number((values.likelihoodRatio.exact ?? 1) <= 0.05);
      rejected.byChiSquare += Number((values.pearson.p ?? 1) <= 0.05);
    }
    const slack = 4.5 * Math.sqrt((0.05 * 0.95) / studies);
    expect(rejected.exact / studies).toBeLessThanOrEqual(0.05 + slack);
    expect(rejected.byExact / studies).toBeLessThanOrEqual(0.05 + slack);
    expectClose(rejected.exact / studies, 0.05, { absolute: slack });
    expectClose(rejected.byChiSquare / studies, 0.05, { absolute: slack });
  });

  it("does not mind the order of the patterns, nor one that can't occur and did not", () => {
    const first = compute(patternFit, asked([6, 1, 3], [0.5, 0.2, 0.3])).values;
    const turned = compute(patternFit, asked([3, 0, 6, 1], [0.3, 0, 0.5, 0.2]));
    expect(faultsOf(turned)).toEqual([]);
    expect(turned.values.degreesOfFreedom).toBe(2);
    for (const name of ["likelihoodRatio", "pearson"] as const) {
      expectClose(turned.values[name].statistic, first[name].statistic ?? -1, { relative: 1e-12 });
      expectClose(turned.values[name].exact, first[name].exact ?? -1, { relative: 1e-12 });
    }
  });

  it("says when a pattern was seen that the model rules out", () => {
    const found = compute(patternFit, asked([8, 1, 1], [0.6, 0.4, 0]));
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toMatchObject({
      logProbability: null,
      exact: 0,
      pearson: { statistic: null, p: 0 },
    });
    expect(found.notes.find(({ code }) => code === "ruled_out")?.message).toContain("pattern 2");
  });

  it("gives no exact p-value for a fitted model, nor for too many tables", () => {
    const fitted = compute(patternFit, asked([30, 10, 12, 48], [0.3, 0.1, 0.12, 0.48]), { fitted: 2 });
    expect(faultsOf(fitted)).toEqual([]);
    expect(fitted.values).toMatchObject({ exact: null, degreesOfFreedom: 1 });
    const spent = compute(patternFit, asked([30, 10, 12, 48], [0.3, 0.1, 0.12, 0.48]), { fitted: 3 });
    expect(faultsOf(spent)).toEqual([]);
    expect(spent.values.pearson.p).toBeNull();
    const many = compute(patternFit, asked(Array(8).fill(100), Array(8).fill(0.125)));
    expect(faultsOf(many)).toEqual([]);
    expect(many.values.exact).toBeNull();
    expect(many.values.pearson).toMatchObject({ statistic: 0, p: 1 });
  });

  it("warns of few expected people, and says when there are none", () => {
    const few = compute(patternFit, asked([8, 1, 1], [0.8, 0.1, 0.1]));
    expect(few.notes.some(({ code, path }) => code === "few_expected" && path === "pearson.p")).toBe(true);
    const many = compute(patternFit, asked([80, 10, 10], [0.8, 0.1, 0.1]));
    expect(many.notes).toEqual([]);
    const none = compute(patternFit, asked([0, 0, 0], [0.8, 0.1, 0.1]));
    expect(faultsOf(none)).toEqual([]);
    expect(none.values).toMatchObject({ people: 0, exact: null, logProbability: null });
  });

  it.each([
    [asked([1, 2], [0.5, 0.4]), "input.patterns"],
    [asked([1], [1]), "input.patterns"],
    [asked([1, 2.5], [0.5, 0.5]), "input.patterns.1.observed"],
  ])("refuses %j", (input, path) => {
    expect(() => compute(patternFit, input)).toThrow(InputError);
    expect(() => compute(patternFit, input)).toThrow(`${path}: `);
  });
});
