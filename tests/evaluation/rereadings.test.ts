import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { Reread } from "../../src/records/model.ts";
import { reread } from "./tiny-devices.ts";
import { person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

const reference = (names: readonly string[], status: "positive" | "negative") =>
  names.map((name) => person({ person: name, rapid: "reactive", reference: status }));

function evaluated(rereadings: readonly Reread[], positive: readonly string[], negative: readonly string[]) {
  const set = setOf([...reference(positive, "positive"), ...reference(negative, "negative")]);
  return evaluate(tinyRecords([set], { rereadings }), tinyInputs).rereadings;
}

describe("a device read twice by one reader", () => {
  const positive = ["a", "b", "c", "d"];
  const negative = ["e", "f", "g", "h", "i", "j"];
  const rereadings = [
    reread("a", "reactive", "reactive"),
    reread("b", "nonreactive", "reactive"),
    reread("c", "reactive", "reactive"),
    reread("d", "reactive", "invalid"),
    reread("e", "nonreactive", "reactive"),
    reread("f", "nonreactive", "reactive"),
    reread("g", "nonreactive", "reactive"),
    reread("h", "nonreactive", "reactive"),
    reread("i", "reactive", "nonreactive"),
    reread("j", "nonreactive", "nonreactive"),
    reread("nobody", "nonreactive", "nonreactive"),
  ];
  const [entry] = evaluated(rereadings, positive, negative);

  it("shows every change of result", () => {
    expect(entry).toMatchObject({ devices: 11, reader: "R1" });
    expect(entry?.transitions).toEqual([
      { first: "reactive", second: "reactive", devices: 2 },
      { first: "reactive", second: "nonreactive", devices: 1 },
      { first: "reactive", second: "invalid", devices: 1 },
      { first: "nonreactive", second: "reactive", devices: 5 },
      { first: "nonreactive", second: "nonreactive", devices: 2 },
    ]);
    expect(entry?.flipped).toMatchObject({ count: 6, total: 10 });
  });

  it("tests whether changes go one way", () => {
    // SciPy 1.10.1: 2 * binom.cdf(1, 6, .5)
    expect(entry?.mcnemarPValue).toBeCloseTo(0.21875, 12);
  });

  it("says what the second reading would have made of the two measures", () => {
    // By hand: sensitivity 2/3 then 3/3; specificity 5/6 then 2/6.
    expect(entry?.sensitivityDifference.value).toBeCloseTo(1 / 3, 12);
    expect(entry?.specificityDifference.value).toBeCloseTo(-3 / 6, 12);
  });

  it("has no difference where nobody's reference status is known", () => {
    const [alone] = evaluated([reread("x", "reactive", "reactive")], [], []);
    expect(alone).toMatchObject({ flipped: { count: 0, total: 1 }, mcnemarPValue: 1 });
    expect(alone?.sensitivityDifference.value).toBeNull();
    const codes = alone?.notes.map(({ code, path }) => `${code} ${path}`);
    expect(codes).toContain("no_observations sensitivityDifference");
    expect(codes).toContain("no_discordance mcnemarPValue");
  });

  it("says nothing of invalid readings alone", () => {
    const [alone] = evaluated([reread("a", "invalid", "invalid")], positive, []);
    expect(alone).toMatchObject({ flipped: { count: 0, total: 0, value: null }, mcnemarPValue: null });
    expect(alone?.notes.map(({ code }) => code)).toContain("no_observations");
  });

  it("is nothing where nothing was read twice", () => {
    expect(evaluated([], positive, negative)).toEqual([]);
  });
});
