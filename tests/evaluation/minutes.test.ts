import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { Pair } from "../../src/records/model.ts";
import { people, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

const timeOf = (pairs: readonly Pair[]) => evaluate(tinyRecords([setOf(pairs)]), tinyInputs).readingTime[0];

/** The made-up kit is read from 15 to 20 minutes. */
function readAt(minutes: number, howMany: number, rapid: Pair["rapid"] = "reactive"): Pair[] {
  const window = minutes < 15 ? ("early" as const) : minutes > 20 ? ("late" as const) : ("in" as const);
  return people(howMany, { rapid, reference: "positive", minutes, window });
}

describe("readings outside and inside the window", () => {
  const time = timeOf([
    ...readAt(17, 18),
    ...readAt(17, 2, "nonreactive"),
    ...readAt(30, 5),
    ...readAt(30, 5, "nonreactive"),
  ]);
  const difference = (outside: string, measure: string) =>
    time?.differences.find((entry) => entry.outside === outside && entry.measure === measure);

  it("differ by Newcombe's interval and Fisher's p-value", () => {
    const late = difference("late", "sensitivity");
    // 5/10 less 18/20. NumPy: square and add of Wilson limits; SciPy 1.10.1: fisher_exact.
    expect(late?.difference.value).toBeCloseTo(-0.4, 12);
    expect(late?.difference.lower).toBeCloseTo(-0.6731051894384397, 10);
    expect(late?.difference.upper).toBeCloseTo(-0.06864260008327022, 10);
    expect(late?.pValue).toBeCloseTo(0.025641025641025637, 10);
  });

  it("are given only for times at which somebody read", () => {
    expect(time?.differences.map(({ outside }) => outside)).toEqual(["late", "late", "outside", "outside"]);
    expect(difference("outside", "sensitivity")?.pValue).toBe(difference("late", "sensitivity")?.pValue);
    expect(difference("late", "specificity")?.difference.value).toBeNull();
    const codes = time?.notes.map(({ code, path }) => `${code} ${path}`);
    expect(codes).toContain("no_observations differences.1.difference");
    expect(codes).toContain("different_people differences");
  });

  it("are none where everybody read in time", () => {
    const inTime = timeOf(readAt(17, 30));
    expect(inTime?.differences).toEqual([]);
    expect(inTime?.notes).toEqual([]);
  });
});

describe("bands of minutes", () => {
  const bands = (pairs: readonly Pair[]) =>
    timeOf(pairs)?.byMinutes.map(({ from, to, people: held }) => [from, to, held]);

  it("are steps of five minutes from the ends of the window, joined until twenty people are in", () => {
    expect(
      bands([
        ...readAt(3, 4),
        ...readAt(7, 9),
        ...readAt(10, 12),
        ...readAt(15, 30),
        ...readAt(20, 10),
        ...readAt(20.5, 21),
        ...readAt(25, 2),
        ...readAt(26, 5),
        ...readAt(58, 15),
        ...readAt(90, 3),
      ]),
    ).toEqual([
      [0, 15, 25],
      [15, 20, 40],
      [20, 25, 23],
      [25, 90, 23],
    ]);
  });

  it("give what is left over to the last band", () => {
    expect(bands([...readAt(17, 20), ...readAt(22, 20), ...readAt(27, 3)])).toEqual([
      [15, 20, 20],
      [20, 30, 23],
    ]);
  });

  it("leave out sides with too few people, and say so", () => {
    const time = timeOf([...readAt(17, 25), ...readAt(40, 19), ...readAt(2, 1)]);
    expect(time?.byMinutes).toHaveLength(1);
    expect(time?.notes.find(({ code }) => code === "few_people")?.message).toContain("20 people");
  });

  it("hold the two measures of their people", () => {
    const time = timeOf([...readAt(17, 19), ...readAt(17, 1, "nonreactive"), ...readAt(22, 20)]);
    expect(time?.byMinutes.map(({ sensitivity }) => [sensitivity.count, sensitivity.total])).toEqual([
      [19, 20],
      [20, 20],
    ]);
  });
});
