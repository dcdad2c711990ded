import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { bivariateExcess, bivariateNormalCdf } from "../../src/numeric/bivariate-normal.ts";
import { normalCdf } from "../../src/numeric/normal.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS } from "./arbitraries.ts";
import { readOracle } from "./oracle-table.ts";

const z = fc.double({ min: -6, max: 6, noNaN: true });
const correlation = fc.double({ min: -1, max: 1, noNaN: true });

describe("the bivariate normal distribution", () => {
  it("agrees with 40-digit integrals (mpmath): 1e-15, and relative 3e-14 where the correlation is positive", () => {
    const rows = readOracle("oracle-bivariate-normal-mp.csv");
    expect(rows.length).toBeGreaterThan(200);
    for (const row of rows) {
      const r = row.number("r");
      const found = bivariateNormalCdf(row.number("x"), row.number("y"), r);
      expectClose(found, row.number("value"), { absolute: 1e-15 }, row.text);
      if (r > 0) expectClose(found, row.number("value"), { relative: 3e-14 }, row.text);
    }
  });

  it("is 1/4 + asin(r) / 2 pi at 0, 0 (Sheppard's closed form)", () => {
    for (const r of [-1, -0.99, -0.95, -0.5, -0.1, 0, 0.2, 0.7, 0.924, 0.926, 0.9999, 1]) {
      expectClose(
        bivariateNormalCdf(0, 0, r),
        0.25 + Math.asin(r) / (2 * Math.PI),
        { absolute: 1e-15 },
        String(r),
      );
    }
  });

  it("is symmetric, has the right margins, and grows with the correlation", () => {
    fc.assert(
      fc.property(z, z, correlation, correlation, (x, y, r, other) => {
        const both = bivariateNormalCdf(x, y, r);
        expectClose(bivariateNormalCdf(y, x, r), both, { absolute: 1e-15 });
        expectClose(both + bivariateNormalCdf(x, -y, -r), normalCdf(x), { absolute: 2e-15 });
        if (other > r) expect(bivariateNormalCdf(x, y, other)).toBeGreaterThanOrEqual(both - 1e-15);
        expectClose(normalCdf(x) * normalCdf(y) + bivariateExcess(x, y, r), both, { absolute: 1e-15 });
      }),
      RUNS,
    );
  });

  it("reduces to the product, to the smaller, and to what overlaps", () => {
    fc.assert(
      fc.property(z, z, (x, y) => {
        expectClose(bivariateNormalCdf(x, y, 0), normalCdf(x) * normalCdf(y), { relative: 1e-15 });
        expectClose(bivariateNormalCdf(x, y, 1), normalCdf(Math.min(x, y)), { relative: 1e-15 });
        const overlap = Math.max(0, normalCdf(x) - normalCdf(y, "upper"));
        expectClose(bivariateNormalCdf(x, y, -1), overlap, { absolute: 2e-16, relative: 1e-15 });
      }),
      RUNS,
    );
  });

  it("knows infinite thresholds, and refuses what is no correlation", () => {
    expect(bivariateNormalCdf(Number.NEGATIVE_INFINITY, 3, 0.5)).toBe(0);
    expect(bivariateNormalCdf(Number.POSITIVE_INFINITY, 1, 0.5)).toBe(normalCdf(1));
    expect(bivariateNormalCdf(1, Number.POSITIVE_INFINITY, -0.5)).toBe(normalCdf(1));
    expect(() => bivariateNormalCdf(0, 0, 1.01)).toThrow(InputError);
    expect(() => bivariateNormalCdf(Number.NaN, 0, 0.1)).toThrow(InputError);
  });
});
