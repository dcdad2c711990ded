import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import type { Step } from "../../../src/methods/algorithms/model.ts";
import { checkAlgorithm, pathsOf } from "../../../src/methods/algorithms/paths.ts";

const kits = [{ id: "A" }, { id: "B" }];
const one: Step = {
  id: "one",
  kit: "A",
  reactive: "two",
  nonreactive: "negative",
  again: 1,
  invalid: "inconclusive",
};
const two: Step = { ...one, id: "two", kit: "B", reactive: "positive", nonreactive: "inconclusive" };

function fault(steps: readonly Step[], some = kits): InputError {
  try {
    checkAlgorithm({ steps: [...steps], retest: null }, some);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("no fault found");
}

describe("an algorithm that can be followed", () => {
  it("is accepted, and gives every path, reactive first, depth first", () => {
    const algorithm = { steps: [one, two], retest: null };
    expect(() => checkAlgorithm(algorithm, kits)).not.toThrow();
    const shown = pathsOf(algorithm, kits).map(
      ({ parts, status }) => `${parts.map(({ kit, result }) => `${kits[kit]?.id} ${result}`)} ${status}`,
    );
    // Written down by hand from the two steps above.
    expect(shown).toEqual([
      "A reactive,B reactive positive",
      "A reactive,B nonreactive inconclusive",
      "A reactive,B invalid inconclusive",
      "A nonreactive negative",
      "A invalid inconclusive",
    ]);
  });

  it("has no branch for a kit whose runs are never invalid", () => {
    const never = [
      { id: "A", invalid: 0 },
      { id: "B", invalid: 0.01 },
    ];
    const paths = pathsOf({ steps: [one, two], retest: null }, never);
    expect(paths.map(({ parts }) => parts.map(({ result }) => result))).toEqual([
      ["reactive", "reactive"],
      ["reactive", "nonreactive"],
      ["reactive", "invalid"],
      ["nonreactive"],
    ]);
  });

  it("may come to one step by several ways", () => {
    const meeting = [{ ...one, invalid: "two" }, two];
    expect(() => checkAlgorithm({ steps: meeting, retest: null }, kits)).not.toThrow();
    expect(pathsOf({ steps: meeting, retest: null }, kits)).toHaveLength(7);
  });
});

describe("an algorithm that can't be followed names the step", () => {
  it("a next step that does not exist", () => {
    const error = fault([{ ...one, reactive: "three" }, two]);
    expect(error.path).toEqual(["input", "steps", "0", "reactive"]);
    expect(error.expected).toContain('after step "one"');
    expect(error.received).toBe('"three"');
  });

  it("a kit that does not exist", () => {
    const error = fault([one, { ...two, kit: "C" }]);
    expect(error.path).toEqual(["input", "steps", "1", "kit"]);
    expect(error.expected).toBe('one of the kits (A, B) at step "two"');
  });

  it("a step that no path reaches", () => {
    const error = fault([{ ...one, reactive: "positive" }, two]);
    expect(error.path).toEqual(["input", "steps", "1", "id"]);
    expect(error.received).toBe('"two"');
  });

  it("a circle, with the way round it, also away from the first step and onto itself", () => {
    const error = fault([one, { ...two, invalid: "one" }]);
    expect(error.path).toEqual(["input", "steps", "1", "invalid"]);
    expect(error.expected).toContain("(one > two > one)");
    expect(fault([one, { ...two, nonreactive: "two" }]).expected).toContain("(two > two)");
    const aside = { ...two, id: "aside", nonreactive: "aside" };
    expect(fault([{ ...one, reactive: "positive" }, aside]).expected).toContain("(aside > aside)");
  });

  it("an id used twice, for steps and for kits, and a step named like a status", () => {
    expect(fault([one, { ...two, id: "one" }]).path).toEqual(["input", "steps", "1", "id"]);
    expect(fault([one, two], [{ id: "A" }, { id: "B" }, { id: "A" }]).path).toEqual([
      "input",
      "kits",
      "2",
      "id",
    ]);
    const named = fault([{ ...one, reactive: "positive", id: "positive" }]);
    expect(named.path).toEqual(["input", "steps", "0", "id"]);
  });

  it("more paths than can be followed one by one", () => {
    const tests = Array.from({ length: 10 }, (_, at): Step => {
      const next = at < 9 ? `t${at + 1}` : "positive";
      return { id: `t${at}`, kit: "A", reactive: next, nonreactive: next, again: 0, invalid: next };
    });
    const algorithm = { steps: tests, retest: null };
    expect(() => checkAlgorithm(algorithm, kits)).not.toThrow();
    expect(() => pathsOf(algorithm, kits)).toThrow(/input\.steps: expected at most 5000 paths/);
  });
});
