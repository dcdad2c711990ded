import { describe, expect, it } from "vitest";
import { differences } from "../../src/evaluation/differences.ts";

describe("differences", () => {
  it("finds none between equal documents", () => {
    expect(differences({ a: [1, { b: null }] }, { a: [1, { b: null }] })).toEqual([]);
  });

  it("names each leaf that differs, by its path", () => {
    expect(differences({ a: [1, 2], b: { c: "x" } }, { a: [1, 3], b: { c: "y" } })).toEqual([
      { path: "a.1", was: 2, is: 3 },
      { path: "b.c", was: "x", is: "y" },
    ]);
  });

  it("tells what only one of them has", () => {
    expect(differences({ a: [1] }, { a: [1, 2], d: null })).toEqual([
      { path: "a.1", was: undefined, is: 2 },
      { path: "d", was: undefined, is: null },
    ]);
  });

  it("tells a list from a mapping, and nothing from null", () => {
    expect(differences({ a: [] }, { a: {} })).toHaveLength(1);
    expect(differences({ a: null }, {})).toHaveLength(1);
  });
});
