import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { planningTwoStage } from "../../../src/methods/planning/two-stage.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";
import { byDrawing, byEveryPath } from "./every-path.ts";

interface Listed {
  readonly first: number;
  readonly failFirst: number;
  readonly total: number;
  readonly failLast: number;
  readonly mean: number;
  readonly error: number;
  readonly power: number;
}

/** Probability of passing, summed over every pair of results. */
function passing(first: number, failFirst: number, total: number, failLast: number, truth: number): number {
  const begin = binomialMasses(first, truth);
  const end = binomialMasses(total - first, truth);
  let sum = 0;
  for (let one = failFirst + 1; one <= first; one += 1) {
    for (let other = Math.max(0, failLast + 1 - one); other <= total - first; other += 1) {
      sum += (begin[one] ?? 0) * (end[other] ?? 0);
    }
  }
  return sum;
}

/** Every design of at most so many people that keeps the error and reaches the power. */
function everyDesign(unacceptable: number, expected: number, error: number, power: number, largest: number) {
  const fits: Listed[] = [];
  for (let total = 2; total <= largest; total += 1) {
    for (let first = 1; first < total; first += 1) {
      const begin = binomialMasses(first, unacceptable);
      let early = 0;
      for (let failFirst = 0; failFirst < first; failFirst += 1) {
        early += begin[failFirst] ?? 0;
        for (let failLast = 0; failLast < total; failLast += 1) {
          const size = passing(first, failFirst, total, failLast, unacceptable);
          if (size > error) continue;
          const reached = passing(first, failFirst, total, failLast, expected);
          if (reached < power) break;
          const mean = first + (1 - early) * (total - first);
          fits.push({ first, failFirst, total, failLast, mean, error: size, power: reached });
        }
      }
    }
  }
  return fits;
}

const CASES = [
  [0.1, 0.4, 0.05, 0.8, 20],
  [0.5, 0.8, 0.1, 0.8, 19],
  [0.7, 0.95, 0.05, 0.8, 24],
  [0.05, 0.3, 0.1, 0.9, 20],
  [0.8, 0.99, 0.08, 0.85, 24],
  [0.6, 0.7, 0.05, 0.8, 16],
] as const;

describe("two stages", () => {
  it.each(CASES)(
    "%d against %d, error %d, power %d, up to %i: as every design listed says",
    (unacceptable, expected, error, power, largest) => {
      const fits = everyDesign(unacceptable, expected, error, power, largest);
      const found = compute(planningTwoStage, { unacceptable, expected }, { error, power, largest });
      expect(faultsOf(found)).toEqual([]);
      const { smallestExpected, minimax } = found.values;
      if (fits.length === 0) {
        expect([smallestExpected, minimax]).toEqual([null, null]);
        return;
      }
      const close = { relative: 1e-10 };
      const least = Math.min(...fits.map(({ mean }) => mean));
      expectClose(smallestExpected?.expectedTotal, least, close, "smallest mean");
      const fewest = Math.min(...fits.map(({ total }) => total));
      expect(minimax?.looks[1]?.total).toBe(fewest);
      const leastThen = Math.min(...fits.filter(({ total }) => total === fewest).map(({ mean }) => mean));
      expectClose(minimax?.expectedTotal, leastThen, close, "mean of the smallest total");
      for (const design of [smallestExpected, minimax]) {
        const same = fits.find(
          ({ first, failFirst, total, failLast }) =>
            first === design?.looks[0]?.total &&
            failFirst === design?.looks[0]?.failAt &&
            total === design?.looks[1]?.total &&
            failLast === design?.looks[1]?.failAt,
        );
        expectClose(design?.error, same?.error ?? -1, close, "error");
        expectClose(design?.power, same?.power ?? -1, close, "power");
      }
    },
  );

  it("has cases of both kinds above", () => {
    const some = CASES.map(
      ([bad, good, error, power, most]) => everyDesign(bad, good, error, power, most).length > 0,
    );
    expect(new Set(some)).toEqual(new Set([true, false]));
  });

  it("agrees with every sequence of results of a small design", () => {
    const { minimax } = compute(planningTwoStage, { unacceptable: 0.2, expected: 0.7 }).values;
    const looks = minimax?.looks ?? [];
    expect(looks[1]?.total).toBeLessThan(15);
    expectClose(byEveryPath(looks, 0.2).pass, minimax?.error ?? -1, { relative: 1e-12 });
    expectClose(byEveryPath(looks, 0.7).pass, minimax?.power ?? -1, { relative: 1e-12 });
    expectClose(byEveryPath(looks, 0.2).mean, minimax?.expectedTotal ?? -1, { relative: 1e-12 });
    expectClose(byEveryPath(looks, 0.7).mean, minimax?.expectedIfGood ?? -1, { relative: 1e-12 });
  });

  it("errs and passes as often as it says when studies are drawn person by person", () => {
    const { values } = compute(planningTwoStage, { unacceptable: 0.9, expected: 0.98 });
    const studies = 40_000;
    for (const design of [values.smallestExpected, values.minimax]) {
      const looks = design?.looks ?? [];
      const bad = byDrawing(looks, 0.9, studies, 21);
      const good = byDrawing(looks, 0.98, studies, 22);
      const within = (share: number) => ({ absolute: 4.5 * Math.sqrt((share * (1 - share)) / studies) });
      expectClose(bad.pass, design?.error ?? -1, within(design?.error ?? 0), "error");
      expectClose(good.pass, design?.power ?? -1, within(design?.power ?? 0), "power");
      expectClose(bad.mean, design?.expectedTotal ?? -1, { absolute: 4.5 * bad.meanError }, "people if bad");
      expectClose(
        good.mean,
        design?.expectedIfGood ?? -1,
        { absolute: 4.5 * good.meanError },
        "people if good",
      );
    }
  });

  it("never gets worse when more people are allowed", () => {
    const asked = { unacceptable: 0.85, expected: 0.95 };
    let before = Number.POSITIVE_INFINITY;
    for (const largest of [58, 60, 66, 80, 120, 200]) {
      const { smallestExpected, minimax } = compute(planningTwoStage, asked, { largest }).values;
      const mean = smallestExpected?.expectedTotal ?? Number.NaN;
      expect(mean).toBeLessThanOrEqual(before);
      expect(minimax?.looks[1]?.total).toBe(57);
      expect(mean).toBeLessThanOrEqual(minimax?.expectedTotal ?? 0);
      before = mean;
    }
  });

  it("says what to change where nothing within the largest total does it", () => {
    const found = compute(planningTwoStage, { unacceptable: 0.95, expected: 0.98 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toMatchObject({ smallestExpected: null, minimax: null, single: { total: 234 } });
    const words = found.notes.map(({ code, message }) => `${code}: ${message}`).join("\n");
    expect(words).toContain("beyond_largest");
    expect(words).toContain("one look at the end would need 234 people. Allow more people");
  });

  it("says so where the two proportions are too close for any study of thousands", () => {
    const found = compute(planningTwoStage, { unacceptable: 0.5, expected: 0.501 }, { largest: 50 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toEqual({ smallestExpected: null, minimax: null, single: null });
  });

  it.each([
    [0.9, 0.9],
    [0.9, 0.8],
    [0.5, 0],
  ])(
    "asks for another expectation when it is not above what is unacceptable (%d, %d)",
    (unacceptable, expected) => {
      const found = compute(planningTwoStage, { unacceptable, expected });
      expect(faultsOf(found)).toEqual([]);
      expect(found.values).toEqual({ smallestExpected: null, minimax: null, single: null });
      expect(found.notes.every(({ code }) => code === "not_above")).toBe(true);
      expect(found.notes[0]?.message).toContain("State a higher expected or a lower unacceptable proportion");
    },
  );

  it("plans for a kit that is expected to be always right", () => {
    const found = compute(planningTwoStage, { unacceptable: 0.9, expected: 1 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.minimax).toMatchObject({ power: 1 });
    // .9^29 = .047, .9^28 = .052: by arithmetic.
    expect(found.values.single).toMatchObject({ total: 29, passFrom: 29 });
  });

  it.each([
    [{ unacceptable: 0, expected: 0.5 }, {}, "input.unacceptable"],
    [{ unacceptable: 0.5, expected: 1.5 }, {}, "input.expected"],
    [{ unacceptable: 0.5, expected: 0.8 }, { largest: 301 }, "options.largest"],
    [{ unacceptable: 0.5, expected: 0.8 }, { error: 0 }, "options.error"],
    [{ unacceptable: 0.5, expected: 0.8 }, { error: 1e-10 }, "options.error"],
    [{ unacceptable: 0.5, expected: 0.8 }, { power: 1 - 1e-10 }, "options.power"],
  ])("refuses %o with %o", (input, options, path) => {
    expect(() => compute(planningTwoStage, input, options)).toThrow(InputError);
    expect(() => compute(planningTwoStage, input, options)).toThrow(`${path}: `);
  });
});
