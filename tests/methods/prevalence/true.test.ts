import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { prevalenceTrue } from "../../../src/methods/prevalence/true.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const PART = fc.double({ min: 0, max: 1, noNaN: true });
const COUNTS = fc
  .record({ total: fc.integer({ min: 0, max: 300 }), part: PART })
  .map(({ total, part }) => ({ count: Math.round(part * total), total }));
const ACCURACY = fc.oneof(
  PART.map((value) => ({ value })),
  COUNTS,
);
const INTERVAL = fc.constantFrom(
  "auto" as const,
  "exact" as const,
  "blaker" as const,
  "wilson" as const,
  "delta" as const,
  "lang_reiczigel" as const,
  "simulated" as const,
);
const SURVEY = { count: 120, total: 1000 };
const ESTIMATED = {
  ...SURVEY,
  sensitivity: { count: 90, total: 100 },
  specificity: { count: 190, total: 200 },
};

describe("the true prevalence", () => {
  it("is plain data within 0 to 1, with every null explained", () => {
    fc.assert(
      fc.property(COUNTS, ACCURACY, ACCURACY, INTERVAL, (survey, sensitivity, specificity, interval) => {
        const input = { ...survey, sensitivity, specificity };
        const found = compute(prevalenceTrue, input, { interval, draws: 200 });
        expect(faultsOf(found)).toEqual([]);
        const { value, lower, upper } = found.values.prevalence;
        for (const part of [value, lower, upper]) {
          if (part === null) continue;
          expect(part).toBeGreaterThanOrEqual(0);
          expect(part).toBeLessThanOrEqual(1);
        }
        if (lower !== null && upper !== null) expect(lower).toBeLessThanOrEqual(upper);
      }),
      { numRuns: 400 },
    );
  });

  it("of a perfect test is the apparent prevalence with its own interval", () => {
    const perfect = { value: 1 };
    const input = { ...SURVEY, sensitivity: perfect, specificity: perfect };
    const { prevalence, apparent } = compute(prevalenceTrue, input).values;
    expectClose(prevalence.value, 0.12, { relative: 1e-12 });
    expectClose(prevalence.lower, apparent.lower as number, { relative: 1e-12 });
    expectClose(prevalence.upper, apparent.upper as number, { relative: 1e-12 });
  });

  it("is mirrored when condition and result change places, sensitivity with specificity", () => {
    fc.assert(
      fc.property(COUNTS, COUNTS, COUNTS, (survey, sensitivity, specificity) => {
        const here = compute(prevalenceTrue, { ...survey, sensitivity, specificity }, { draws: 100 }).values;
        const turned = {
          count: survey.total - survey.count,
          total: survey.total,
          sensitivity: specificity,
          specificity: sensitivity,
        };
        const there = compute(prevalenceTrue, turned, { draws: 100 }).values;
        // Every number is a quotient by Se + Sp - 1: close to 0 it has few digits.
        const youden = sensitivity.count / sensitivity.total + specificity.count / specificity.total - 1;
        if (here.prevalence.lower === null || !(youden > 0.05)) return;
        const close = { absolute: 1e-9 };
        expectClose(there.prevalence.value, 1 - (here.prevalence.value ?? 2), close, "value");
        expectClose(there.prevalence.upper, 1 - here.prevalence.lower, close, "upper");
        expectClose(there.delta.standardError, here.delta.standardError as number, {
          relative: 1e-8,
          absolute: 1e-12,
        });
      }),
      { numRuns: 200 },
    );
  });

  it("tends to the known case as the accuracies are estimated from ever more people", () => {
    const many = 1e9;
    const sensitivity = { count: 0.9 * many, total: many };
    const specificity = { count: 0.95 * many, total: many };
    const wide = compute(prevalenceTrue, { ...SURVEY, sensitivity, specificity }, { draws: 100 }).values;
    const known = { ...SURVEY, sensitivity: { value: 0.9 }, specificity: { value: 0.95 } };
    const narrow = compute(prevalenceTrue, known, { draws: 100 }).values;
    for (const side of ["lower", "upper"] as const) {
      const there = narrow.langReiczigel.interval[side] as number;
      expectClose(wide.langReiczigel.interval[side], there, { relative: 1e-5 }, side);
    }
    expectClose(wide.delta.standardError, narrow.delta.standardError as number, { relative: 1e-4 });
    expectClose(narrow.delta.standardError, narrow.treatedAsKnown.standardError as number, {
      relative: 1e-12,
    });
  });

  it("by draws comes near the delta method where all is plentiful, the same for the same seed", () => {
    const input = {
      count: 2400,
      total: 20000,
      sensitivity: { count: 4500, total: 5000 },
      specificity: { count: 9500, total: 10000 },
    };
    const { simulated, delta } = compute(prevalenceTrue, input, { draws: 100_000 }).values;
    for (const side of ["lower", "upper"] as const) {
      const apart = Math.abs((simulated.interval[side] ?? 9) - (delta.interval[side] ?? 0));
      expect(apart).toBeLessThan(0.02 * (delta.standardError ?? 0) + 4 * (simulated.lowerError ?? 0) + 1e-4);
    }
    const again = compute(prevalenceTrue, ESTIMATED, { draws: 500, seed: 4 }).values.simulated;
    expect(compute(prevalenceTrue, ESTIMATED, { draws: 500, seed: 4 }).values.simulated).toEqual(again);
    expect(compute(prevalenceTrue, ESTIMATED, { draws: 500, seed: 5 }).values.simulated).not.toEqual(again);
  });

  it("says where it was cut, taken as known, or can't be told", () => {
    const codes = (input: typeof ESTIMATED, options = {}) =>
      compute(prevalenceTrue, input, options).notes.map(({ code }) => code);
    expect(codes({ ...ESTIMATED, count: 40 })).toEqual(["below_zero", "truncated"]);
    expect(codes({ ...ESTIMATED, count: 1 })).toEqual([
      "below_zero",
      "incompatible",
      "truncated",
      "truncated",
    ]);
    expect(codes({ ...ESTIMATED, count: 920 })).toEqual(["above_one", "truncated"]);
    expect(codes({ ...ESTIMATED, count: 40 }, { truncate: false })).toEqual(["below_zero"]);
    expect(codes(ESTIMATED, { interval: "exact" })).toEqual(["taken_as_known"]);
    expect(new Set(codes({ ...ESTIMATED, sensitivity: { count: 5, total: 100 } }))).toEqual(
      new Set(["uninformative_test"]),
    );
    expect(new Set(codes({ ...ESTIMATED, specificity: { count: 0, total: 0 } }))).toEqual(
      new Set(["no_observations"]),
    );
    expect(() => codes({ ...ESTIMATED, sensitivity: { count: 101, total: 100 } })).toThrow(
      "input.sensitivity.count: expected at most",
    );
  });
});
