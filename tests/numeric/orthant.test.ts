import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { normalCdf } from "../../src/numeric/normal.ts";
import { normalOrthant } from "../../src/numeric/orthant.ts";
import { expectClose } from "../tolerance.ts";
import { type OracleRow, readOracle } from "./oracle-table.ts";

/** The matrix with these correlations above its diagonal, row by row. */
function matrixOf(size: number, correlations: readonly number[]): number[][] {
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(1));
  let at = 0;
  for (let row = 0; row < size; row += 1) {
    for (let column = row + 1; column < size; column += 1, at += 1) {
      (matrix[row] as number[])[column] = correlations[at] as number;
      (matrix[column] as number[])[row] = correlations[at] as number;
    }
  }
  return matrix;
}

function orthantOf(row: OracleRow): number {
  const numbers = (column: string) => row.word(column).split(" ").map(Number);
  return normalOrthant(numbers("h"), matrixOf(row.number("n"), numbers("r")));
}

const SEEN_IN_R = "3,1.2822555923183343 ";

const equal = (size: number, r: number) => matrixOf(size, new Array<number>((size * (size - 1)) / 2).fill(r));

describe("normal orthants", () => {
  it("agree with sums over common factors (SciPy's ndtr), three to five variables: 1e-15", () => {
    const rows = readOracle("oracle-normal-orthants.csv");
    expect(rows.length).toBeGreaterThan(150);
    for (const row of rows) {
      expectClose(orthantOf(row), row.number("value"), { absolute: 1e-15, relative: 1e-15 }, row.text);
    }
  });

  it("agree with SciPy's multivariate_normal.cdf where no common factors are, as far as that is exact: 1e-6", () => {
    const rows = readOracle("oracle-normal-orthants-scipy.csv");
    expect(rows.length).toBeGreaterThan(35);
    for (const row of rows) expectClose(orthantOf(row), row.number("value"), { absolute: 1e-6 }, row.text);
  });

  it("have the 15 digits of nested integrals (R 4.2.2, integrate) in a row where SciPy is off by 6e-8", () => {
    const row = readOracle("oracle-normal-orthants-scipy.csv").find(({ text }) => text.startsWith(SEEN_IN_R));
    expectClose(orthantOf(row as OracleRow), 0.868935531369435, { relative: 2e-15 });
  });

  it("are 1 / (n + 1) at 0 with all correlations 1/2: any of n + 1 equals may be the largest", () => {
    for (const size of [1, 2, 3, 4, 5]) {
      expectClose(normalOrthant(new Array<number>(size).fill(0), equal(size, 0.5)), 1 / (size + 1), {
        relative: 2e-15,
      });
    }
  });

  it("are 1/8 + the sum of arcsines / 4 pi for three at 0, up to a singular set", () => {
    const half = Math.SQRT1_2;
    for (const [xy, xz, yz] of [
      [0.1, -0.3, 0.6],
      [0.99, 0.98, 0.985],
      [-0.49, -0.49, -0.5],
      [0, half, half],
      [0.5, 0.5, -0.5],
    ] as const) {
      const closed = 1 / 8 + (Math.asin(xy) + Math.asin(xz) + Math.asin(yz)) / (4 * Math.PI);
      expectClose(normalOrthant([0, 0, 0], matrixOf(3, [xy, xz, yz])), closed, { absolute: 2e-15 });
    }
  });

  it("are products without correlations, and leave out what is always so", () => {
    const borders = [-2, 0.3, 1, -0.5, 2];
    const product = borders.reduce((found, border) => found * normalCdf(border), 1);
    expectClose(normalOrthant(borders, equal(5, 0)), product, { relative: 1e-15 });
    const matrix = matrixOf(3, [0.3, 0.2, 0.4]);
    const infinite = Number.POSITIVE_INFINITY;
    expect(normalOrthant([-1, infinite, 0.5], matrix)).toBe(normalOrthant([-1, 0.5], matrixOf(2, [0.2])));
    expect(normalOrthant([-1, -infinite, 0.5], matrix)).toBe(0);
    expect(normalOrthant([], [])).toBe(1);
  });

  it("take a variable that is another one, or its opposite, for what it is", () => {
    const other = matrixOf(2, [0.4]);
    expect(normalOrthant([-1, -0.5, 0.2], matrixOf(3, [1, 0.4, 0.4]))).toBe(normalOrthant([-1, 0.2], other));
    const stretch = normalOrthant([1, 0.2], other) - normalOrthant([-0.5, 0.2], other);
    expectClose(normalOrthant([1, 0.5, 0.2], matrixOf(3, [-1, 0.4, -0.4])), stretch, { absolute: 1e-15 });
    expect(normalOrthant([-1, 0.5, 0.2], matrixOf(3, [-1, 0.4, -0.4]))).toBe(0);
  });

  it("add up to 1 over all signs, five variables", () => {
    const r = [0.5, 0.3, -0.2, 0.1, 0.4, 0.25, 0.6, -0.3, 0.2, 0.15];
    const borders = [-1, 0.5, 0.2, -0.3, 1];
    let sum = 0;
    for (let signs = 0; signs < 32; signs += 1) {
      const side = borders.map((_, at) => ((signs >> at) & 1 ? -1 : 1));
      const turned = matrixOf(5, r).map((row, i) =>
        row.map((entry, j) => entry * (side[i] as number) * (side[j] as number)),
      );
      sum += normalOrthant(
        borders.map((border, at) => border * (side[at] as number)),
        turned,
      );
    }
    expectClose(sum, 1, { absolute: 1e-13 });
  });

  it("refuse more than five, and correlations that can't hold together", () => {
    expect(() => normalOrthant(new Array<number>(6).fill(0), equal(6, 0.1))).toThrow(InputError);
    expect(() => normalOrthant([0, 0, 0], matrixOf(3, [0.9, 0.9, -0.9]))).toThrow(/hold together/);
    expect(() => normalOrthant([Number.NaN], [[1]])).toThrow(InputError);
  });
});
