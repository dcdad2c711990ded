import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jointTally } from "../../src/records/joint-tally.ts";
import type { Pair, PairedSet } from "../../src/records/model.ts";
import { type Treatment, tally } from "../../src/records/tallies.ts";

function pair(change: Partial<Pair>): Pair {
  return {
    person: "P",
    weight: 1,
    rapid: "reactive",
    firstRapid: "reactive",
    invalidReason: null,
    faint: false,
    window: "in",
    minutes: 17,
    reference: "positive",
    site: null,
    selection: "consecutive",
    strata: {},
    ...change,
  };
}

function setOf(pairs: readonly Pair[], analyte = "A1"): PairedSet {
  return { analyte, kit: "kit-x", specimen: "venous", reader: "R1", method: "eye", pairs, before: [] };
}

const plain: Treatment = { invalid: "set_aside", outsideWindow: "keep" };

/** A hand-made set: every rapid result with every reference status, in known numbers. */
const set = setOf([
  pair({ weight: 40 }),
  pair({ weight: 4, rapid: "nonreactive" }),
  pair({ weight: 3, rapid: "invalid" }),
  pair({ weight: 2, rapid: "not_done", window: "unknown" }),
  pair({ weight: 5, reference: "negative" }),
  pair({ weight: 100, reference: "negative", rapid: "nonreactive" }),
  pair({ weight: 7, reference: "negative", rapid: "invalid" }),
  pair({ weight: 1, reference: "indeterminate" }),
  pair({ weight: 6, reference: "not_done", rapid: "nonreactive" }),
  pair({ weight: 10, window: "late" }),
  pair({ weight: 20, window: "early", reference: "negative", rapid: "nonreactive" }),
  pair({ weight: 30, window: "unknown", minutes: null, reference: "negative", rapid: "nonreactive" }),
]);

describe("counting people into the fourfold table", () => {
  it.each<[Treatment["invalid"], number[]]>([
    ["set_aside", [50, 5, 4, 150]],
    ["failure", [50, 12, 7, 150]],
    ["reactive", [53, 12, 4, 150]],
    ["nonreactive", [50, 5, 7, 157]],
  ])("invalid: %s", (invalid, expected) => {
    const found = tally(set, { invalid, outsideWindow: "keep" });
    const { truePositives, falsePositives, falseNegatives, trueNegatives } = found.counts;
    expect([truePositives, falsePositives, falseNegatives, trueNegatives]).toEqual(expected);
    expect(found).toMatchObject({
      invalidPositives: 3,
      invalidNegatives: 7,
      people: 228,
      unknownMinutes: 30,
    });
  });

  it("gives a reason for everyone who is not in the table", () => {
    const found = tally(set, plain);
    expect(found.analysed).toBe(209);
    expect(found.setAside).toEqual([
      { reason: "rapid_not_done", people: 2 },
      { reason: "reference_not_done", people: 6 },
      { reason: "reference_indeterminate", people: 1 },
      { reason: "invalid", people: 10 },
    ]);
  });

  it("sets readings outside the window aside, or takes them as invalid", () => {
    const aside = tally(set, { invalid: "failure", outsideWindow: "set_aside" });
    expect(aside.counts).toEqual({
      truePositives: 40,
      falsePositives: 12,
      falseNegatives: 7,
      trueNegatives: 130,
    });
    expect(aside.setAside).toContainEqual({ reason: "outside_window", people: 30 });
    const invalid = tally(set, { invalid: "failure", outsideWindow: "invalid" });
    expect(invalid.counts).toEqual({
      truePositives: 40,
      falsePositives: 32,
      falseNegatives: 17,
      trueNegatives: 130,
    });
    expect(invalid).toMatchObject({ invalidPositives: 13, invalidNegatives: 27 });
  });

  it("shows the raw cross-tabulation before any treatment", () => {
    const found = tally(set, { invalid: "reactive", outsideWindow: "set_aside" });
    expect(found.crossTabulation).toEqual({
      reactive: { positive: 50, negative: 5, indeterminate: 1, not_done: 0 },
      nonreactive: { positive: 4, negative: 150, indeterminate: 0, not_done: 6 },
      invalid: { positive: 3, negative: 7, indeterminate: 0, not_done: 0 },
      not_done: { positive: 2, negative: 0, indeterminate: 0, not_done: 0 },
    });
  });

  it("counts a subgroup alone", () => {
    const found = tally(set, plain, (entry) => entry.window === "late");
    expect(found).toMatchObject({ people: 10, analysed: 10, counts: { truePositives: 10 } });
  });

  const anyPair = fc.record({
    weight: fc.integer({ min: 0, max: 50 }),
    rapid: fc.constantFrom("reactive", "nonreactive", "invalid", "not_done"),
    reference: fc.constantFrom("positive", "negative", "indeterminate", "not_done"),
    window: fc.constantFrom("early", "in", "late", "unknown"),
  });
  const anyTreatment = fc.record({
    invalid: fc.constantFrom("set_aside", "failure", "reactive", "nonreactive"),
    outsideWindow: fc.constantFrom("keep", "set_aside", "invalid"),
  });

  it("loses and doubles nobody, whatever the treatment", () => {
    fc.assert(
      fc.property(fc.array(anyPair), anyTreatment, (changes, treatment) => {
        const pairs = changes.map((change) => pair(change as Partial<Pair>));
        const found = tally(setOf(pairs), treatment as Treatment);
        const weight = pairs.reduce((sum, entry) => sum + entry.weight, 0);
        const aside = found.setAside.reduce((sum, entry) => sum + entry.people, 0);
        const crossed = Object.values(found.crossTabulation).flatMap((row) => Object.values(row));
        expect(found.people).toBe(weight);
        expect(found.analysed + aside).toBe(weight);
        expect(crossed.reduce((sum, count) => sum + count, 0)).toBe(weight);
      }),
    );
  });
});

describe("two analytes together", () => {
  const one = setOf([
    pair({ person: "a" }),
    pair({ person: "b", rapid: "nonreactive" }),
    pair({ person: "c", reference: "negative" }),
    pair({ person: "d", reference: "negative", rapid: "nonreactive" }),
    pair({ person: "e", rapid: "invalid" }),
    pair({ person: "f" }),
  ]);
  const other = setOf(
    [
      pair({ person: "a" }),
      pair({ person: "b", reference: "negative" }),
      pair({ person: "c", rapid: "nonreactive" }),
      pair({ person: "d", reference: "negative", rapid: "nonreactive" }),
      pair({ person: "e" }),
      pair({ person: "g" }),
    ],
    "A2",
  );

  it("counts people valid on both, rows and columns ++, +-, -+, --", () => {
    expect(jointTally(one, other, plain)).toEqual({
      table: [
        [1, 0, 0, 0],
        [0, 0, 1, 0],
        [0, 1, 0, 0],
        [0, 0, 0, 1],
      ],
      analysed: 4,
      setAside: 3,
      people: 7,
    });
  });

  it("counts invalid ones as the treatment says", () => {
    const found = jointTally(one, other, { invalid: "failure", outsideWindow: "keep" });
    expect(found.table[0]).toEqual([1, 0, 1, 0]);
    expect(found.analysed).toBe(5);
  });
});
