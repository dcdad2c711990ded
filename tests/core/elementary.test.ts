import { describe, expect, it } from "vitest";
import { acos, asin, cos, sin, tanh } from "../../src/core/elementary/angles.ts";
import { exp, expm1 } from "../../src/core/elementary/exponential.ts";
import { log, log1p, log2, log10 } from "../../src/core/elementary/logarithm.ts";
import { pow } from "../../src/core/elementary/power.ts";
import { readOracle } from "../numeric/oracle-table.ts";

const FUNCTIONS: Readonly<Record<string, (x: number, y: number) => number>> = {
  exp,
  expm1,
  log,
  log1p,
  log2,
  log10,
  pow,
  sin,
  cos,
  asin,
  acos,
  tanh,
};

/** Distance of a double to the next one of its size. */
function unitOf(value: number): number {
  const exponent = Math.floor(Math.log2(Math.max(Math.abs(value), 2 ** -1022)));
  return 2 ** (exponent - 52);
}

const rows = readOracle("oracle-elementary-mp.csv");

describe("elementary functions against 60-digit arithmetic (mpmath)", () => {
  // tanh: the same rounding as Node 20's own, which is made by the same steps.
  const most: Readonly<Record<string, number>> = { tanh: 2 };

  it.each(Object.keys(FUNCTIONS))("%s errs by less than one unit in the last place (tanh: two)", (name) => {
    const mine = rows.filter((row) => row.word("function") === name);
    expect(mine.length).toBeGreaterThanOrEqual(60);
    const errors = mine.map((row) => {
      const found = FUNCTIONS[name]?.(row.number("x"), row.number("y")) ?? Number.NaN;
      const nearest = row.number("nearest");
      return { row: row.text, units: Math.abs(found - nearest - row.number("rest")) / unitOf(nearest) };
    });
    expect(errors.filter(({ units }) => !(units < (most[name] ?? 1)))).toEqual([]);
  });
});

describe("what ECMAScript says of special arguments (ECMA-262, sections 6.1.6.1.3 and 21.3.2)", () => {
  const special = [0, -0, 1, -1, 2, -2, 0.5, -0.5, 3, -3, 1e308, -1e308, 5e-324, 2 ** 53, 2 ** 53 - 1];
  const all = [...special, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

  it("pow, every pair of them, as this engine has it", () => {
    for (const x of all) for (const y of all) expect([x, y, pow(x, y)]).toEqual([x, y, x ** y]);
  });

  it.each([
    ["exp", exp, Math.exp],
    ["expm1", expm1, Math.expm1],
    ["log", log, Math.log],
    ["log1p", log1p, Math.log1p],
    ["log2", log2, Math.log2],
    ["log10", log10, Math.log10],
    ["asin", asin, Math.asin],
    ["acos", acos, Math.acos],
    ["tanh", tanh, Math.tanh],
  ] as const)("%s, as this engine has it where the value is exact", (_name, own, engine) => {
    for (const x of [0, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect([x, own(x)]).toEqual([x, engine(x)]);
    }
  });

  it("whole logarithms are whole", () => {
    for (let power = 0; power <= 22; power++) expect(log10(Number(`1e${power}`))).toBe(power);
    for (let power = -1000; power <= 1000; power++) expect(log2(2 ** power)).toBe(power);
  });

  it("sine and cosine at zero", () => {
    expect([sin(0), sin(-0), cos(0), cos(-0)]).toEqual([0, -0, 1, 1]);
  });
});
