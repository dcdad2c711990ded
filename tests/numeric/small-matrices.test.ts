import { describe, expect, it } from "vitest";
import { randomStream } from "../../src/core/random.ts";
import { inverseLdl, ldlFactors, solveLdl } from "../../src/numeric/ldl.ts";
import { qrRank } from "../../src/numeric/qr-rank.ts";
import { expectClose } from "../tolerance.ts";

/** The Hilbert matrix: 1 / (row + column + 1); its inverse has whole numbers (R 4.2.2 `round(solve(1 / outer(1:4, 0:3, "+")))`). */
const hilbert = (size: number) =>
  Float64Array.from(
    { length: size * size },
    (_, place) => 1 / (Math.floor(place / size) + (place % size) + 1),
  );

describe("ldlFactors", () => {
  it("inverts the Hilbert matrix of 4 rows, whose inverse is known", () => {
    const known = [
      16, -120, 240, -140, -120, 1200, -2700, 1680, 240, -2700, 6480, -4200, -140, 1680, -4200, 2800,
    ];
    const inverse = inverseLdl(ldlFactors(hilbert(4), 4));
    known.forEach((value, place) => {
      expectClose(inverse[place], value, { relative: 1e-10 }, `${place}`);
    });
  });

  it("solves what multiplying back gives", () => {
    const random = randomStream(4);
    const size = 9;
    const root = Float64Array.from({ length: size * size }, () => random() - 0.5);
    const matrix = new Float64Array(size * size);
    for (let a = 0; a < size; a += 1) {
      for (let b = 0; b < size; b += 1) {
        for (let k = 0; k < size; k += 1) {
          const part = (root[a * size + k] ?? 0) * (root[b * size + k] ?? 0);
          matrix[a * size + b] = (matrix[a * size + b] ?? 0) + part + (a === b ? 0.1 / size : 0);
        }
      }
    }
    const wanted = Array.from({ length: size }, (_, k) => k - 3.5);
    const right = wanted.map((_, a) =>
      wanted.reduce((sum, value, b) => sum + (matrix[a * size + b] ?? 0) * value, 0),
    );
    const solved = solveLdl(ldlFactors(matrix, size), right);
    wanted.forEach((value, k) => {
      expectClose(solved[k], value, { relative: 1e-10 }, `${k}`);
    });
  });

  it.each([
    ["a negative pivot", [1, 2, 2, 1]],
    ["nothing on the diagonal", [0, 0, 0, 1]],
    ["not a number", [Number.NaN, 0, 0, 1]],
  ])("tells %s from positive definite", (_, matrix) => {
    expect(ldlFactors(Float64Array.from(matrix), 2).positive).toBe(false);
  });
});

describe("qrRank", () => {
  const rows = (matrix: number[][]) => matrix.map((row) => Float64Array.from(row));

  it.each([
    [
      "all independent",
      [
        [1, 0, 0],
        [1, 1, 0],
        [1, 1, 1],
      ],
      3,
    ],
    [
      "one the sum of two others",
      [
        [1, 2, 3],
        [4, 5, 9],
        [7, 8, 15],
        [1, 0, 1],
      ],
      2,
    ],
    [
      "a column of zeros",
      [
        [1, 0],
        [2, 0],
      ],
      1,
    ],
    ["fewer rows than columns", [[1, 2, 3]], 1],
    [
      "the same in other units",
      [
        [1e-9, 3],
        [2e-9, 7],
      ],
      2,
    ],
    ["no rows", [], 0],
  ])("%s", (_, matrix, rank) => {
    const columns = matrix[0]?.length ?? 3;
    const found = qrRank(rows(matrix), columns, 1e-8);
    expect(found.rank).toBe(rank);
    expect(found.dependent).toHaveLength(columns - rank);
  });

  it("agrees with a product of two thin random matrices, whose rank is their width", () => {
    const random = randomStream(5);
    for (const width of [1, 3, 6]) {
      const left = Array.from({ length: 20 }, () => Array.from({ length: width }, () => random() - 0.5));
      const right = Array.from({ length: width }, () => Array.from({ length: 8 }, () => random() - 0.5));
      const product = left.map((row) =>
        Array.from({ length: 8 }, (_, column) =>
          row.reduce((sum, value, k) => sum + value * (right[k]?.[column] ?? 0), 0),
        ),
      );
      expect(qrRank(rows(product), 8, 1e-9).rank).toBe(width);
    }
  });
});
