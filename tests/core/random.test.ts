import { randomNormal } from "d3-random";
import { describe, expect, it } from "vitest";
import { randomStream, taskNumber } from "../../src/core/random.ts";

const take = (source: () => number, size: number) => Array.from({ length: size }, source);

describe("randomStream", () => {
  it("gives the same draws for the same seed and task, whatever else was drawn", () => {
    const first = take(randomStream(7, 3), 20);
    take(randomStream(7, 4), 1000);
    expect(take(randomStream(7, 3), 20)).toEqual(first);
  });

  it("gives other draws for another task or seed", () => {
    const seen = new Set<number>();
    for (let seed = 0; seed < 50; seed += 1)
      for (let task = 0; task < 50; task += 1) seen.add(randomStream(seed, task)());
    expect(seen.size).toBe(2500);
  });

  it("is uniform over a hundred cells: chi-square within its 0.1 % and 99.9 % points (60.5, 149.4, R qchisq)", () => {
    const cells = new Array<number>(100).fill(0);
    const draws = 100_000;
    const source = randomStream(20260401, 1);
    for (let draw = 0; draw < draws; draw += 1) {
      const cell = Math.floor(source() * 100);
      cells[cell] = (cells[cell] ?? 0) + 1;
    }
    const expected = draws / 100;
    const chiSquare = cells.reduce((sum, seen) => sum + (seen - expected) ** 2 / expected, 0);
    expect(chiSquare).toBeGreaterThan(60.5);
    expect(chiSquare).toBeLessThan(149.4);
  });

  it("first draws of neighbouring tasks are not correlated (|r| < 4 / sqrt n)", () => {
    const firsts = Array.from({ length: 10_000 }, (_, task) => randomStream(1, task)());
    const mean = firsts.reduce((sum, value) => sum + value, 0) / firsts.length;
    let cross = 0;
    let square = 0;
    for (let task = 1; task < firsts.length; task += 1) {
      cross += ((firsts[task] as number) - mean) * ((firsts[task - 1] as number) - mean);
      square += ((firsts[task] as number) - mean) ** 2;
    }
    expect(Math.abs(cross / square)).toBeLessThan(4 / Math.sqrt(firsts.length));
  });

  it("serves as a source for d3-random", () => {
    const normal = randomNormal.source(randomStream(5))(10, 2);
    const draws = take(normal, 20_000);
    const mean = draws.reduce((sum, value) => sum + value, 0) / draws.length;
    expect(Math.abs(mean - 10)).toBeLessThan((4 * 2) / Math.sqrt(draws.length));
  });
});

describe("taskNumber", () => {
  it("is a whole number of 32 bits and tells names apart", () => {
    const names = Array.from({ length: 5000 }, (_, index) => `task ${index}`);
    const numbers = names.map(taskNumber);
    expect(numbers.every((number) => Number.isInteger(number) && number >= 0 && number < 2 ** 32)).toBe(true);
    expect(new Set(numbers).size).toBeGreaterThan(4990);
  });
});
