import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { chanceCorrected } from "../../../src/methods/agreement/chance-corrected.ts";
import { kappa } from "../../../src/methods/agreement/kappa.ts";
import { type PercentAgreementInput, percent } from "../../../src/methods/agreement/percent.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const cell = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 4000 }));
const COUNTS: fc.Arbitrary<PercentAgreementInput> = fc.record({
  bothReactive: cell,
  firstOnly: cell,
  secondOnly: cell,
  bothNonreactive: cell,
});
const squares = (least: number, most: number, entry = cell) =>
  fc
    .integer({ min: least, max: most })
    .chain((size) =>
      fc.array(fc.array(entry, { minLength: size, maxLength: size }), { minLength: size, maxLength: size }),
    );
const TABLES = squares(2, 4);
const WEIGHTS = fc.constantFrom("none", "linear", "quadratic", "ordinal");
const NEAR = { relative: 1e-9, absolute: 1e-12 };
const transposed = (table: readonly (readonly number[])[]) =>
  table.map((_, column) => table.map((row) => row[column] ?? 0));

function expectSame(found: number | null, expected: number | null, what: string) {
  if (expected === null || found === null) expect(found, what).toBe(expected);
  else expectClose(found, expected, NEAR, what);
}

describe("percent agreement", () => {
  it("gives finite numbers, or a note, for every table and interval", () => {
    const methods = fc.constantFrom("clopper_pearson", "wilson", "jeffreys", "wald", "mid_p");
    fc.assert(
      fc.property(COUNTS, methods, (counts, method) => {
        const found = compute(percent, counts, { method });
        expect(faultsOf(found)).toEqual([]);
        for (const { value, lower, upper } of Object.values(found.values)) {
          if (value === null || lower === null || upper === null) continue;
          expect(lower).toBeLessThanOrEqual(value + 1e-12);
          expect(upper).toBeGreaterThanOrEqual(value - 1e-12);
        }
      }),
      { numRuns: 500 },
    );
  });

  it("keeps the specific agreements when the two change places, not the percent agreements", () => {
    const one = { bothReactive: 40, firstOnly: 5, secondOnly: 2, bothNonreactive: 171 };
    const swap = (counts: PercentAgreementInput) => ({
      ...counts,
      firstOnly: counts.secondOnly,
      secondOnly: counts.firstOnly,
    });
    fc.assert(
      fc.property(COUNTS, (counts) => {
        const here = compute(percent, counts).values;
        const there = compute(percent, swap(counts)).values;
        for (const field of ["positiveSpecificAgreement", "negativeSpecificAgreement", "overallAgreement"]) {
          expect(there[field as "overallAgreement"]).toEqual(here[field as "overallAgreement"]);
        }
      }),
    );
    const here = compute(percent, one).values.positivePercentAgreement.value;
    expect(compute(percent, swap(one)).values.positivePercentAgreement.value).not.toBe(here);
  });

  it("positive specific agreement is the harmonic mean of the two percent agreements, one per comparator", () => {
    fc.assert(
      fc.property(COUNTS, (counts) => {
        fc.pre(counts.bothReactive > 0);
        const { bothReactive: a, firstOnly: b, secondOnly: c } = counts;
        const harmonic = 2 / ((a + c) / a + (a + b) / a);
        expectClose(compute(percent, counts).values.positiveSpecificAgreement.value, harmonic, NEAR);
      }),
    );
  });

  it("the exact interval of a specific agreement covers what it says, by enumeration", () => {
    // Given 30 items that anybody calls reactive, the shared ones are binomial with some p; source: definition.
    const total = 30;
    const limits = Array.from({ length: total + 1 }, (_, both) => {
      const counts = { bothReactive: both, firstOnly: total - both, secondOnly: 0, bothNonreactive: 100 };
      return compute(percent, counts).values.positiveSpecificAgreement;
    });
    for (const p of [0.05, 0.3, 0.62, 0.9, 0.97]) {
      const truth = (2 * p) / (1 + p);
      let mass = (1 - p) ** total;
      let covered = 0;
      limits.forEach(({ lower, upper }, both) => {
        if ((lower ?? 1) <= truth && truth <= (upper ?? 0)) covered += mass;
        mass *= ((total - both) / (both + 1)) * (p / (1 - p));
      });
      expect(covered).toBeGreaterThanOrEqual(0.95);
    }
  });
});

describe("kappa", () => {
  it("gives finite numbers, or a note, for every table", () => {
    const sparse = squares(2, 3, fc.constantFrom(0, 0, 0, 1, 2, 60));
    fc.assert(
      fc.property(fc.oneof(TABLES, sparse), WEIGHTS, (table, weights) => {
        expect(faultsOf(compute(kappa, { table }, { weights }))).toEqual([]);
        expect(faultsOf(compute(chanceCorrected, { table }))).toEqual([]);
      }),
      { numRuns: 600 },
    );
  });

  it("does not change when the readers change places", () => {
    fc.assert(
      fc.property(TABLES, WEIGHTS, (table, weights) => {
        const here = compute(kappa, { table }, { weights }).values;
        const there = compute(kappa, { table: transposed(table) }, { weights }).values;
        for (const field of ["standardError", "nullStandardError", "largestKappa"] as const) {
          expectSame(there[field], here[field], field);
        }
        expectSame(there.kappa.value, here.kappa.value, "kappa");
        const rivals = compute(chanceCorrected, { table }).values;
        const turned = compute(chanceCorrected, { table: transposed(table) }).values;
        for (const field of ["scottPi", "ac1", "pabak", "krippendorffAlpha"] as const) {
          expectSame(turned[field].value, rivals[field].value, field);
          expectSame(turned[field].lower, rivals[field].lower, field);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("agrees with its definition by counting pairs of items", () => {
    // Expected agreement: how often reading 1 of one item equals reading 2 of any item, the same included.
    fc.assert(
      fc.property(squares(2, 4, fc.integer({ min: 0, max: 6 })), (table) => {
        const items = table.flatMap((row, first) =>
          row.flatMap((count, second) => Array.from({ length: count }, () => ({ first, second }))),
        );
        fc.pre(items.length > 0);
        let same = 0;
        let pairs = 0;
        for (const one of items) {
          if (one.first === one.second) same += 1;
          for (const other of items) if (one.first === other.second) pairs += 1;
        }
        const observed = same / items.length;
        const expected = pairs / items.length ** 2;
        const found = compute(kappa, { table }).values;
        expectClose(found.observedAgreement, observed, NEAR);
        expectClose(found.expectedAgreement, expected, NEAR);
        if (expected < 1) expectClose(found.kappa.value, (observed - expected) / (1 - expected), NEAR);
      }),
      { numRuns: 200 },
    );
  });

  it("is 1 only at full agreement, and never above the largest for its margins", () => {
    fc.assert(
      fc.property(TABLES, WEIGHTS, (table, weights) => {
        const { values } = compute(kappa, { table }, { weights });
        if (values.kappa.value === null || values.largestKappa === null) return;
        const off = table.some((row, at) => row.some((count, column) => count > 0 && column !== at));
        if (off) expect(values.kappa.value).toBeLessThan(1);
        else expect(values.kappa.value).toBe(1);
        expect(values.kappa.value).toBeLessThanOrEqual(values.largestKappa + 1e-12);
        expect(values.largestKappa).toBeLessThanOrEqual(1 + 1e-12);
      }),
      { numRuns: 400 },
    );
  });

  it("merges two categories whose confusion counts as agreement", () => {
    const weights = [
      [1, 1, 0],
      [1, 1, 0],
      [0, 0, 1],
    ];
    fc.assert(
      fc.property(squares(3, 3), (table) => {
        const [[a, b, c], [d, e, f], [g, h, i]] = table as [number[], number[], number[]] as number[][] as [
          [number, number, number],
          [number, number, number],
          [number, number, number],
        ];
        const merged = [
          [a + b + d + e, c + f],
          [g + h, i],
        ];
        const whole = compute(kappa, { table }, { weights }).values;
        const parts = compute(kappa, { table: merged }).values;
        expectSame(whole.kappa.value, parts.kappa.value, "kappa");
        expectSame(whole.largestKappa, parts.largestKappa, "largest");
        if (whole.standardError !== null && parts.standardError !== null && parts.standardError > 0) {
          expectSame(whole.standardError, parts.standardError, "standard error");
        }
      }),
      { numRuns: 200 },
    );
  });

  it("is not moved by a category that nobody used; nor are pi and alpha, while PABAK and AC1 are", () => {
    const table = [
      [40, 9],
      [6, 45],
    ];
    const wider = [
      [40, 9, 0],
      [6, 45, 0],
      [0, 0, 0],
    ];
    const narrow = compute(chanceCorrected, { table }).values;
    const wide = compute(chanceCorrected, { table: wider }).values;
    for (const field of ["kappa", "scottPi", "krippendorffAlpha"] as const) {
      expectSame(wide[field].value, narrow[field].value, field);
      expectSame(wide[field].lower, narrow[field].lower, field);
    }
    expect(wide.pabak.value).toBeGreaterThan(narrow.pabak.value ?? 1);
    expect(wide.ac1.value).toBeGreaterThan(narrow.ac1.value ?? 1);
  });

  it("finds the largest kappa that any table with the same margins has, by enumeration", () => {
    const small = squares(3, 3, fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(small, WEIGHTS, (table, weights) => {
        const largest = compute(kappa, { table }, { weights }).values.largestKappa;
        if (largest === null) return;
        let best = Number.NEGATIVE_INFINITY;
        for (const other of tablesLike(table)) {
          best = Math.max(best, compute(kappa, { table: other }, { weights }).values.kappa.value ?? best);
        }
        expectClose(largest, best, NEAR);
      }),
      { numRuns: 25 },
    );
  });

  it("says which argument is wrong", () => {
    const table = [
      [1, 2],
      [3, 4],
    ];
    expect(() => compute(kappa, { table: [[1, 2], [3]] })).toThrow(
      "input.table.1: expected 2 entries, one per category, received [3]",
    );
    const lopsided = [
      [1, 0.2],
      [0.3, 1],
    ];
    expect(() => compute(kappa, { table }, { weights: lopsided })).toThrow(
      "options.weights.0.1: expected 0.3",
    );
    expect(() => compute(kappa, { table }, { weights: [[1]] })).toThrow("options.weights: expected 2 rows");
    const halved = [
      [0.5, 0],
      [0, 1],
    ];
    expect(() => compute(kappa, { table }, { weights: halved })).toThrow("options.weights.0.0: expected 1");
  });

  it("explains full agreement, one category, and nothing at all", () => {
    const full = compute(kappa, {
      table: [
        [20, 0],
        [0, 30],
      ],
    });
    expect(full.values.kappa).toEqual({ value: 1, lower: null, upper: null });
    expect(full.notes.map(({ code }) => code)).toEqual(["no_width", "no_width"]);
    const single = compute(kappa, {
      table: [
        [20, 7],
        [0, 0],
      ],
    });
    expect(single.values.kappa.value).toBeCloseTo(0, 15);
    expect(single.notes.map(({ code }) => code)).toContain("one_category");
    const empty = compute(kappa, {
      table: [
        [0, 0],
        [0, 0],
      ],
    });
    expect(new Set(empty.notes.map(({ code }) => code))).toEqual(new Set(["no_observations"]));
  });
});

describe("the number of disagreements", () => {
  it("is warned of below ten, not from ten on", () => {
    const warned = (off: number) => {
      const table = [
        [30, off],
        [0, 60],
      ];
      return compute(chanceCorrected, { table })
        .notes.filter(({ code }) => code === "few_disagreements")
        .map(({ path }) => path);
    };
    expect(warned(9)).toEqual(["kappa", "scottPi", "ac1", "krippendorffAlpha"]);
    expect(warned(10)).toEqual([]);
    expect(warned(0)).toEqual([]);
  });
});

describe("the paradoxes of kappa", () => {
  const paradoxOf = (a: number, b: number, c: number, d: number) =>
    compute(chanceCorrected, {
      table: [
        [a, b],
        [c, d],
      ],
    }).values.paradox;

  it("are found in the tables that introduced them (Feinstein and Cicchetti 1990, recalled)", () => {
    expect([paradoxOf(40, 9, 6, 45), paradoxOf(80, 10, 5, 5)]).toEqual(["none", "prevalence"]);
    expect([paradoxOf(45, 15, 25, 15), paradoxOf(25, 35, 5, 35)]).toEqual(["none", "bias"]);
  });

  it("98 % agreement with kappa 0.55 is one, with kappa 0.96 is none (computed by hand)", () => {
    expect([paradoxOf(5, 4, 4, 387), paradoxOf(196, 4, 4, 196)]).toEqual(["prevalence", "none"]);
  });

  it("kappa follows from PABAK and the two indices (Byrt, Bishop and Carlin 1993, recalled)", () => {
    fc.assert(
      fc.property(squares(2, 2), (table) => {
        const { values } = compute(chanceCorrected, { table });
        if (values.kappa.value === null || values.prevalenceIndex === null) return;
        const balance = (values.biasIndex ?? 0) ** 2 - values.prevalenceIndex ** 2;
        // Near full agreement on one answer both sides lose digits alike.
        const slack = { absolute: 1e-13 / (1 + balance) };
        expectClose(((values.pabak.value ?? 0) + balance) / (1 + balance), values.kappa.value, slack);
      }),
      { numRuns: 300 },
    );
  });
});

/** Every 3 x 3 table with the same margins. */
function* tablesLike(table: readonly (readonly number[])[]): Generator<number[][]> {
  const rows = table.map((row) => row.reduce((total, count) => total + count, 0)) as [number, number, number];
  const columns = transposed(table).map((row) => row.reduce((total, count) => total + count, 0)) as [
    number,
    number,
    number,
  ];
  for (let a = 0; a <= rows[0]; a += 1) {
    for (let b = 0; a + b <= rows[0]; b += 1) {
      for (let d = 0; d <= rows[1]; d += 1) {
        for (let e = 0; d + e <= rows[1]; e += 1) {
          const c = rows[0] - a - b;
          const f = rows[1] - d - e;
          const last = [columns[0] - a - d, columns[1] - b - e, columns[2] - c - f];
          if (last.some((count) => count < 0)) continue;
          yield [[a, b, c], [d, e, f], last];
        }
      }
    }
  }
}
