import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { bivariateNormalCdf } from "../../src/numeric/bivariate-normal.ts";
import { normalQuantile } from "../../src/numeric/normal.ts";
import { tetrachoric } from "../../src/numeric/tetrachoric.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS } from "./arbitraries.ts";
import { readOracle } from "./oracle-table.ts";

const share = fc.oneof(
  fc.double({ min: 0.0005, max: 0.05, noNaN: true }),
  fc.double({ min: 0.05, max: 0.9995, noNaN: true }),
);

describe("the tetrachoric correlation", () => {
  it("gives the share that was asked for, to 1e-15", () => {
    fc.assert(
      fc.property(share, share, fc.double({ min: 0, max: 1, noNaN: true }), (first, second, part) => {
        const least = Math.max(0, first + second - 1);
        const both = least + part * (Math.min(first, second) - least);
        const [x, y] = [normalQuantile(first), normalQuantile(second)];
        expectClose(bivariateNormalCdf(x, y, tetrachoric(x, y, both)), both, { absolute: 1e-15 });
      }),
      RUNS,
    );
  });

  it("finds the correlation again of integrals in 40 digits (mpmath), where the share says it well", () => {
    const rows = readOracle("oracle-bivariate-normal-mp.csv").filter(
      (row) => Math.abs(row.number("r")) < 0.95 && row.number("value") > 1e-4 && row.number("value") < 0.2,
    );
    expect(rows.length).toBeGreaterThan(30);
    for (const row of rows) {
      const found = tetrachoric(row.number("x"), row.number("y"), row.number("value"));
      const off = 1e-13 + 1e-15 / slope(row.number("x"), row.number("y"), row.number("r"));
      expectClose(found, row.number("r"), { absolute: off }, row.text);
    }
  });

  it("is sin(2 pi (both - 1/4)) with margins of one half (Sheppard's closed form)", () => {
    for (const both of [0.01, 0.1, 0.24, 0.25, 0.26, 0.4, 0.49]) {
      expectClose(tetrachoric(0, 0, both), Math.sin(2 * Math.PI * (both - 0.25)), { absolute: 1e-14 });
    }
  });

  it("is 0, 1 and -1 at independence and at the ends, and refuses what lies beyond them", () => {
    const [x, y] = [normalQuantile(0.02), normalQuantile(0.3)];
    expectClose(tetrachoric(x, y, 0.006), 0, { absolute: 1e-14 });
    expect(tetrachoric(x, y, 0.02)).toBe(1);
    expect(tetrachoric(x, y, 0)).toBe(-1);
    expect(() => tetrachoric(x, y, 0.021)).toThrow(InputError);
    expect(() => tetrachoric(-x, -y, 0.6)).toThrow(InputError);
  });
});

/** How fast the share grows with the correlation: the normal density at the thresholds. */
function slope(x: number, y: number, r: number): number {
  const rest = 1 - r * r;
  return Math.exp((x * y * r - (x * x + y * y) / 2) / rest) / (2 * Math.PI * Math.sqrt(rest));
}
