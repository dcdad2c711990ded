import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import {
  hypergeometricCdf,
  hypergeometricLogMass,
  hypergeometricMass,
} from "../../src/numeric/hypergeometric.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS } from "./arbitraries.ts";
import { expectAll, readOracle } from "./oracle-table.ts";

const urn = fc
  .record({
    m: fc.integer({ min: 0, max: 120 }),
    n: fc.integer({ min: 0, max: 120 }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ m, n, share }) => ({ m, n, k: Math.round(share * (m + n)) }));

describe("the hypergeometric distribution", () => {
  const rows = readOracle("oracle-hyper.csv");

  it("agrees with R's dhyper and phyper, up to ten million balls", () => {
    for (const [column, ours] of [
      ["pmf", hypergeometricMass],
      ["cdf", hypergeometricCdf],
      ["sf", upper],
    ] as const) {
      const checks = rows.map((row) => {
        const [a, b, c, d] = ["a", "b", "c", "d"].map((name) => row.number(name)) as [
          number,
          number,
          number,
          number,
        ];
        return { row: row.text, expected: row.number(column), actual: ours(a, a + b, c + d, a + c) };
      });
      expectAll(`oracle-hyper.csv, ${column}`, checks, 2e-13, 24);
    }
  });

  it("agrees with R's two-sided fisher.test: the sum of all tables no more probable than the one seen", () => {
    const checks = rows
      .filter((row) => row.word("fisher2") !== "NA")
      .map((row) => {
        const [a, b, c, d] = ["a", "b", "c", "d"].map((name) => row.number(name)) as [
          number,
          number,
          number,
          number,
        ];
        const [m, n, k] = [a + b, c + d, a + c];
        const seen = hypergeometricMass(a, m, n, k) * (1 + 1e-7);
        let sum = 0;
        for (let x = Math.max(0, k - n); x <= Math.min(k, m); x++) {
          const mass = hypergeometricMass(x, m, n, k);
          if (mass <= seen) sum += mass;
        }
        return { row: row.text, expected: row.number("fisher2"), actual: sum };
      });
    expectAll("oracle-hyper.csv, fisher2", checks, 1e-12, 20);
  });

  it("the masses add up to the tails and to 1", () => {
    fc.assert(
      fc.property(urn, fc.double({ min: 0, max: 1, noNaN: true }), ({ m, n, k }, share) => {
        const [least, most] = [Math.max(0, k - n), Math.min(k, m)];
        const x = least + Math.floor(share * (most - least));
        let lower = 0;
        let upperSum = 0;
        for (let at = least; at <= most; at++) {
          if (at <= x) lower += hypergeometricMass(at, m, n, k);
          else upperSum += hypergeometricMass(at, m, n, k);
        }
        expectClose(lower, hypergeometricCdf(x, m, n, k), { relative: 1e-13 });
        expectClose(upperSum, upper(x, m, n, k), { relative: 1e-13 });
        expectClose(lower + upperSum, 1, { absolute: 1e-13 });
      }),
      { ...RUNS, numRuns: 300 },
    );
  });

  it("white balls and drawn balls can be exchanged", () => {
    fc.assert(
      fc.property(urn, fc.nat({ max: 120 }), ({ m, n, k }, x) => {
        expectClose(hypergeometricMass(x, m, n, k), hypergeometricMass(x, k, m + n - k, m), {
          relative: 1e-14,
        });
        expectClose(hypergeometricMass(x, m, n, k), hypergeometricMass(k - x, n, m, k), { relative: 1e-14 });
      }),
      RUNS,
    );
  });

  it("agrees with jstat for small urns", () => {
    for (let x = 0; x <= 8; x++) {
      expectClose(hypergeometricMass(x, 12, 20, 8), jstat.jStat.hypgeom.pdf(x, 32, 12, 8), {
        relative: 1e-12,
      });
    }
  });

  it("knows what is certain and what can't be", () => {
    expect(hypergeometricMass(0, 0, 0, 0)).toBe(1);
    expect(hypergeometricMass(2, 5, 0, 2)).toBe(1);
    expect(hypergeometricLogMass(3, 2, 5, 4)).toBe(Number.NEGATIVE_INFINITY);
    expect(hypergeometricMass(-1, 2, 5, 4)).toBe(0);
    expect(hypergeometricCdf(-1, 2, 5, 4)).toBe(0);
    expect(hypergeometricCdf(2, 2, 5, 4)).toBe(1);
    expect(upper(2, 2, 5, 4)).toBe(0);
    expect(hypergeometricCdf(1.5, 2, 5, 4)).toBe(hypergeometricCdf(1, 2, 5, 4));
  });

  it("refuses an impossible urn", () => {
    expect(() => hypergeometricMass(1, -1, 5, 2)).toThrow(InputError);
    expect(() => hypergeometricMass(1, 3, 5, 9)).toThrow(InputError);
    expect(() => hypergeometricMass(0.5, 3, 5, 2)).toThrow(InputError);
    expect(() => hypergeometricCdf(Number.NaN, 3, 5, 2)).toThrow(InputError);
    expect(() => hypergeometricCdf(1, 3, 5.5, 2)).toThrow(InputError);
  });
});

function upper(x: number, m: number, n: number, k: number): number {
  return hypergeometricCdf(x, m, n, k, "upper");
}
