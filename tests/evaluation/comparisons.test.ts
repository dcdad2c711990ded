import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair, PairedSet } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { lineRecords } from "./tiny-devices.ts";
import { person, setOf, tinyInputs, tinyKit, tinyRecords } from "./tiny-study.ts";

/** The sets of the made-up study are those of a named reader. */
const records: Study["records"] = { ...lineRecords };

type Status = "positive" | "negative";
type Planned = Study["comparisons"][number];

const specimens = [
  { type: "serum", title: "Serum" },
  { type: "plasma", title: "Plasma" },
];
const planned: Planned = {
  id: "plasma",
  title: "Plasma against serum",
  analyte: "one",
  first: { specimen: "plasma" },
  second: {},
  kind: "noninferiority",
};

/** Result that is right or wrong for a reference status. */
function rapid(status: Status, right: boolean): "reactive" | "nonreactive" {
  return (status === "positive") === right ? "reactive" : "nonreactive";
}

/** People p1, p2, … of one status: both right, first only, second only, neither. */
function onBoth(status: Status, [both, firstOnly, secondOnly, neither]: readonly number[], from = 0) {
  const kinds = [
    [both, true, true],
    [firstOnly, true, false],
    [secondOnly, false, true],
    [neither, false, false],
  ] as const;
  const first: Pair[] = [];
  const second: Pair[] = [];
  for (const [howMany = 0, here, there] of kinds) {
    for (let one = 0; one < howMany; one += 1) {
      const name = `${status}${from + first.length}`;
      first.push(person({ person: name, rapid: rapid(status, here), reference: status }));
      second.push(person({ person: name, rapid: rapid(status, there), reference: status }));
    }
  }
  return { first, second };
}

/** People of one side only, so many right of so many. */
function onOne(status: Status, right: number, total: number, name: string): Pair[] {
  return Array.from({ length: total }, (_, index) =>
    person({ person: `${name}${status}${index}`, rapid: rapid(status, index < right), reference: status }),
  );
}

function compared(
  first: readonly Pair[],
  second: readonly Pair[],
  changes: Partial<Planned> = {},
  study = {},
) {
  const sets = [setOf(second), setOf(first, { specimen: "plasma" })];
  const comparisons = [{ ...planned, ...changes }];
  const made = tinyRecords(sets, { study: { records, specimens, comparisons, ...study } });
  return evaluate(made, tinyInputs).comparisons;
}

const positives = onBoth("positive", [30, 1, 5, 4]);
const negatives = onBoth("negative", [36, 0, 3, 1]);
const first = [...positives.first, ...negatives.first];
const second = [...positives.second, ...negatives.second];

describe("the same people on both sides", () => {
  const [comparison] = compared(first, second, { margin: 0.1, source: "made up", entered_on: "2026-01-01" });
  const [sensitivity, specificity] = comparison?.measures ?? [];

  it("are crossed by right and wrong, person by person", () => {
    expect(comparison).toMatchObject({
      id: "plasma",
      first: { kit: "made-up-kit", specimen: "plasma", reader: "R1" },
      second: { kit: "made-up-kit", specimen: "serum", reader: "R1" },
      people: { both: 80, firstOnly: 0, secondOnly: 0 },
    });
    expect(sensitivity?.paired).toEqual({ both: 30, firstOnly: 1, secondOnly: 5, neither: 4 });
    expect(specificity?.paired).toEqual({ both: 36, firstOnly: 0, secondOnly: 3, neither: 1 });
    expect(sensitivity).toMatchObject({ first: { count: 31, total: 40 }, second: { count: 35, total: 40 } });
    expect(specificity).toMatchObject({ first: { count: 36, total: 40 }, second: { count: 39, total: 40 } });
  });

  it("differ by Tango's interval and the mid-p test", () => {
    expect(sensitivity).toMatchObject({ interval: "tango", test: "mid_p" });
    // SciPy 1.10.1: likelihood maximised numerically at each difference, limits by brentq; binom for p.
    expect(sensitivity?.difference.value).toBeCloseTo(-0.1, 12);
    expect(sensitivity?.difference.lower).toBeCloseTo(-0.24227388, 7);
    expect(sensitivity?.difference.upper).toBeCloseTo(0.02624205, 7);
    expect(sensitivity?.pValue).toBeCloseTo(0.125, 12);
    expect(specificity?.difference.lower).toBeCloseTo(-0.19864234, 7);
    expect(specificity?.difference.upper).toBeCloseTo(0.01919322, 7);
    expect(specificity?.pValue).toBeCloseTo(0.125, 12);
    expect(specificity?.ratio.value).toBeCloseTo(36 / 39, 12);
  });

  it("are held against the margin stated", () => {
    expect(specificity?.margin).toMatchObject({
      margin: 0.1,
      kind: "noninferiority",
      verdict: "undecided",
      source: "made up",
      enteredOn: "2026-01-01",
    });
    // The same numerical likelihood at a difference of -.1.
    expect(specificity?.margin?.pValue).toBeCloseTo(0.29908073, 6);
    const [wide] = compared(first, second, { margin: 0.3, source: "made up" });
    expect(wide?.measures.map(({ margin }) => margin?.verdict)).toEqual(["met", "met"]);
    const [equal] = compared(first, second, { margin: 0.22, source: "made up", kind: "equivalence" });
    expect(equal?.measures.map(({ margin }) => margin?.verdict)).toEqual(["undecided", "met"]);
  });

  it("have predictive values where the sample is a population's", () => {
    // By hand: first reactive 31 right, 4 wrong; second 35 right, 1 wrong.
    const [ppv, npv] = comparison?.predictive ?? [];
    expect(ppv?.first).toBeCloseTo(31 / 35, 12);
    expect(ppv?.second).toBeCloseTo(35 / 36, 12);
    expect(npv?.first).toBeCloseTo(36 / 45, 12);
    expect(npv?.second).toBeCloseTo(39 / 44, 12);
    expect(ppv?.difference.value).toBeCloseTo(31 / 35 - 35 / 36, 12);
    const sought = first.map((pair) => ({ ...pair, selection: "enriched" as const }));
    expect(compared(sought, second)[0]?.predictive).toEqual([]);
  });

  it("count only where both results are valid, under the study's treatment", () => {
    const spoilt = first.map((pair, index) => (index < 2 ? { ...pair, rapid: "invalid" as const } : pair));
    const [aside] = compared(spoilt, second);
    expect(aside?.people).toEqual({ both: 78, firstOnly: 0, secondOnly: 2 });
    expect(aside?.measures[0]?.paired).toMatchObject({ both: 28 });
    expect(aside?.notes.map(({ code }) => code)).toContain("on_one_side");
    const treatment = { invalid: "failure", outside_window: "keep", repeat: "last" };
    const [failed] = compared(spoilt, second, {}, { treatment });
    expect(failed?.measures[0]?.paired).toEqual({ both: 28, firstOnly: 1, secondOnly: 7, neither: 4 });
  });
});

describe("different people", () => {
  const here = [...onOne("positive", 18, 20, "a"), ...onOne("negative", 30, 30, "a")];
  const there = [...onOne("positive", 24, 30, "b"), ...onOne("negative", 30, 30, "b")];
  const [comparison] = compared(here, there, { margin: 0.2, source: "made up" });
  const [sensitivity, specificity] = comparison?.measures ?? [];

  it("differ by Miettinen and Nurminen's interval and Fisher's test", () => {
    expect(comparison?.people).toEqual({ both: 0, firstOnly: 50, secondOnly: 60 });
    expect(sensitivity).toMatchObject({ interval: "miettinen_nurminen", test: "fisher", paired: null });
    // SciPy 1.10.1: likelihood maximised numerically at each difference, limits by brentq; fisher_exact.
    expect(sensitivity?.difference.lower).toBeCloseTo(-0.13107219, 7);
    expect(sensitivity?.difference.upper).toBeCloseTo(0.29828115, 7);
    expect(sensitivity?.pValue).toBeCloseTo(0.45009162685087234, 10);
    expect(sensitivity?.margin?.verdict).toBe("met");
    expect(specificity).toMatchObject({ difference: { value: 0 }, pValue: 1 });
    expect(comparison?.notes.map(({ code }) => code)).toContain("different_people");
  });

  it("have their predictive values compared as proportions", () => {
    const [ppv, npv] = comparison?.predictive ?? [];
    expect(ppv).toMatchObject({ first: 1, second: 1 });
    expect(npv?.first).toBeCloseTo(30 / 32, 12);
    expect(npv?.second).toBeCloseTo(30 / 36, 12);
  });

  it("are compared without the few who are on both sides", () => {
    const few = onBoth("positive", [2, 0, 0, 0]);
    const [mixed] = compared([...here, ...few.first], [...there, ...few.second]);
    expect(mixed?.people).toEqual({ both: 2, firstOnly: 50, secondOnly: 60 });
    expect(mixed?.measures[0]).toMatchObject({ paired: null, first: { count: 18, total: 20 } });
    expect(mixed?.notes.map(({ code }) => code)).toContain("on_both_sides");
  });

  it("are what counts are always of", () => {
    const counts = {
      shape: "counts" as const,
      table: "counts.csv",
      columns: { true_positives: "a", false_positives: "b", false_negatives: "c", true_negatives: "d" },
    };
    const [counted] = compared(
      first,
      second,
      { first: { specimen: "plasma", reader: "R1" }, second: { reader: "R1" } },
      { records: counts },
    );
    expect(counted?.people).toEqual({ both: 0, firstOnly: 80, secondOnly: 80 });
  });
});

describe("further kits", () => {
  const other = { ...tinyKit, id: "other-kit", title: "Another kit" };
  const withKits = (sets: readonly PairedSet[], study: Partial<Study> = {}) => {
    const made = tinyRecords(sets, { study });
    return evaluate({ ...made, kits: [...made.kits, other] }, tinyInputs);
  };
  const sets = [setOf(second), setOf(first, { kit: "other-kit" })];

  it("are compared with the main kit although the study file says nothing", () => {
    const { comparisons } = withKits(sets);
    expect(comparisons).toHaveLength(1);
    expect(comparisons[0]).toMatchObject({
      id: "one-other-kit-made-up-kit",
      title: "Another kit against A made-up kit",
      first: { kit: "other-kit" },
      second: { kit: "made-up-kit" },
      people: { both: 80 },
    });
    expect(comparisons[0]?.measures[0]?.margin).toBeNull();
    expect(comparisons[0]?.notes.map(({ code }) => code)).toContain("not_stated");
  });

  it("are compared once where the study file states it, whichever comes first", () => {
    const stated: Planned = { ...planned, first: {}, second: { kit: "other-kit" } };
    const { comparisons } = withKits(sets, { comparisons: [stated] });
    expect(comparisons.map(({ id }) => id)).toEqual(["plasma"]);
  });

  it("have cells of their own, after the main kit's, unless nobody was tested with them", () => {
    const { accuracy, kits } = withKits(sets);
    expect(kits.map(({ id }) => id)).toEqual(["made-up-kit", "other-kit"]);
    expect(accuracy.map(({ kit }) => kit)).toEqual(["made-up-kit", "other-kit"]);
    const untested = setOf([person({ rapid: "not_done", reference: "positive" })], { kit: "other-kit" });
    expect(withKits([setOf(second), untested]).accuracy.map(({ kit }) => kit)).toEqual(["made-up-kit"]);
  });

  it("have their two analytes crossed kit by kit", () => {
    const analytes = tinyRecords().study.analytes.flatMap((analyte) => [analyte, { ...analyte, id: "two" }]);
    const four = sets.flatMap((set) => [set, { ...set, analyte: "two" }]);
    const { joint } = withKits(four, { analytes });
    expect(joint.map(({ kit }) => kit)).toEqual(["made-up-kit", "other-kit"]);
  });
});

describe("comparisons that can say little", () => {
  const nobody: Pair[] = [];
  const agreeing = onBoth("positive", [5, 0, 0, 0]);

  it("of a kit with itself find no difference", () => {
    const [same] = compared(first, second, { first: {}, second: {}, margin: 0.1, source: "made up" });
    expect(same?.measures[0]).toMatchObject({ pValue: 1, difference: { value: 0 } });
    expect(same?.notes.map(({ code }) => code)).toContain("same_side");
    expect(same?.measures[0]?.notes.map(({ code }) => code)).toContain("no_discordance");
  });

  it("of what the records do not hold say so", () => {
    const [absent] = compared(first, second, { first: { specimen: "plasma", reader: "R9" } });
    expect(absent).toMatchObject({ measures: [], predictive: [], first: { reader: "R9" } });
    expect(absent?.notes.map(({ code, path }) => `${code} ${path}`)).toEqual(["no_observations first"]);
  });

  it.each([
    ["nobody", nobody, nobody],
    ["nobody on one side", first, nobody],
    ["positives only, all right", agreeing.first, agreeing.second],
    ["everybody wrong", onBoth("positive", [0, 0, 0, 6]).first, onBoth("positive", [0, 0, 0, 6]).second],
    [
      "right on the first side only",
      onBoth("positive", [0, 4, 0, 0]).first,
      onBoth("positive", [0, 4, 0, 0]).second,
    ],
    ["different people, everybody right", onOne("positive", 4, 4, "a"), onOne("positive", 5, 5, "b")],
    ["different people, everybody wrong", onOne("negative", 0, 4, "a"), onOne("negative", 0, 5, "b")],
  ])("%s: notes, no number that is none", (_, here, there) => {
    const sets = [setOf(there), setOf(here, { specimen: "plasma" })];
    const comparisons = [{ ...planned, margin: 0.05, source: "made up" }];
    const made = tinyRecords(sets, { study: { records, specimens, comparisons } });
    const evaluation = evaluate(made, tinyInputs);
    expect(writeEvaluation(evaluation)).not.toMatch(/NaN|Infinity/);
    const [comparison] = evaluation.comparisons;
    const notes = comparison?.measures.flatMap((measure) => measure.notes) ?? [];
    expect(notes).not.toEqual([]);
    for (const { message } of notes) expect(message).not.toMatch(/reactive/);
  });
});
