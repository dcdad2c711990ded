import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Intensity } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair, PairedSet } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { expectClose } from "../tolerance.ts";
import { setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

type Instrument = Study["instruments"][number];

const LINES: Study["records"] = {
  shape: "lines",
  participants: "a.csv",
  specimens: "b.csv",
  index_tests: "c.csv",
  line_readings: "d.csv",
  reference_tests: "e.csv",
};
const OPTICAL: Instrument = { reader: "OR", unit: "units", direction: "higher", scale: "linear" };
const KIT = { instrument: { title: "Reader", unit: "units", cutoffs: { C: 5, T1: 5 } } };

interface Someone {
  readonly reference: Pair["reference"];
  readonly reading?: number | null;
  readonly device?: string;
  readonly optical?: Pair["rapid"];
  readonly eye?: Pair["rapid"];
  readonly eyeDevice?: string;
  readonly faint?: boolean;
  readonly minutes?: number | null;
}

/** The same people as the eye R1 and the instrument OR have them. */
function setsOf(list: readonly Someone[]): PairedSet[] {
  const pair = (someone: Someone, at: number, of: "eye" | "optical"): Pair => {
    const device = someone.device ?? `D${at}`;
    const reading = someone.reading ?? null;
    const rapid =
      (of === "eye" ? someone.eye : someone.optical) ?? ((reading ?? 0) >= 5 ? "reactive" : "nonreactive");
    return {
      person: `P${at}`,
      weight: 1,
      rapid,
      firstRapid: rapid,
      invalidReason: null,
      faint: of === "eye" && (someone.faint ?? false),
      window: "in",
      minutes: someone.minutes === undefined ? 17 : someone.minutes,
      reference: someone.reference,
      site: null,
      selection: "consecutive",
      strata: {},
      measured:
        of === "eye"
          ? { device: someone.eyeDevice ?? device, intensity: null }
          : { device, intensity: reading },
    };
  };
  const set = (of: "eye" | "optical") => list.map((someone, at) => pair(someone, at, of));
  return [setOf(set("eye")), setOf(set("optical"), { reader: "OR", method: "optical" })];
}

function evaluated(
  sets: readonly PairedSet[],
  instrument: Partial<Instrument> = {},
  study: Partial<Study> = {},
  kit: Parameters<typeof tinyRecords>[1] = { kit: KIT },
) {
  const instruments = [{ ...OPTICAL, ...instrument }];
  const records = tinyRecords(sets, { ...kit, study: { records: LINES, instruments, ...study } });
  return { records, document: evaluate(records, tinyInputs) };
}

function only({
  document,
}: {
  readonly document: { readonly intensities: readonly Intensity[] };
}): Intensity {
  const [first] = document.intensities;
  if (first === undefined || document.intensities.length > 1) throw new Error("not one cell");
  return first;
}

const some = (reference: Pair["reference"], readings: readonly number[], more: Partial<Someone> = {}) =>
  readings.map((reading): Someone => ({ reference, reading, ...more }));
const POSITIVES = [9, 7, 6, 6, 4, 12, 30, 2];
const NEGATIVES = [1, 2, 2, 3, 1, 6, 0.5, 4, 3, 1, 8, 2];
const PEOPLE = [...some("positive", POSITIVES), ...some("negative", NEGATIVES)];

/** Share of pairs in which the person with the condition lies higher, ties half: by every pair. */
function areaByPairs(positives: readonly number[], negatives: readonly number[]): number {
  let wins = 0;
  for (const one of positives) {
    for (const other of negatives) wins += one > other ? 1 : one === other ? 0.5 : 0;
  }
  return wins / (positives.length * negatives.length);
}

describe("readings of an instrument", () => {
  const found = evaluated(setsOf(PEOPLE), { choose: "youden" });
  const intensity = only(found);

  it("have the area that counting every pair gives", () => {
    expectClose(intensity.curve.area.value, areaByPairs(POSITIVES, NEGATIVES), { relative: 1e-12 });
    expect(intensity).toMatchObject({ reader: "OR", lines: ["T1"], unit: "units", direction: "higher" });
  });

  it("are judged at the kit's cutoff by the study's interval, as the results were", () => {
    // By hand: of eight positives all but 4 and 2 reach 5; of twelve negatives 6 and 8 do.
    expect(intensity.stated).toMatchObject({
      cutoff: 5,
      from: "kit",
      source: "made up",
      sensitivity: { count: 6, total: 8 },
      specificity: { count: 10, total: 12 },
    });
    // Clopper and Pearson, R 4.2.2 binom.test(6, 8) and binom.test(10, 12).
    expectClose(intensity.stated?.sensitivity.lower, 0.3491442, { absolute: 1e-6 });
    expectClose(intensity.stated?.specificity.upper, 0.9791375, { absolute: 1e-6 });
  });

  it("choose the cutoff of the highest Youden index, and say what that flatters by", () => {
    const youden = (cutoff: number) =>
      POSITIVES.filter((one) => one >= cutoff).length / 8 +
      NEGATIVES.filter((one) => one < cutoff).length / 12 -
      1;
    const all = [...POSITIVES, ...NEGATIVES];
    const best = Math.max(...all.map(youden));
    const values = intensity.chosen?.values;
    expectClose(values?.youden, best, { relative: 1e-12 });
    expectClose(youden(values?.cutoff.value ?? 0), best, { relative: 1e-12 });
    expect(values?.corrected.youden).toBeLessThan(best);
    expect(found.document.warnings).toMatchObject([
      {
        code: "cutoff_chosen_here",
        reader: "OR",
        facts: { cutoff: values?.cutoff.value, correctedSensitivity: values?.corrected.sensitivity },
      },
    ]);
  });

  it("choose none, and warn of none, where the study file asks for none", () => {
    const { document } = evaluated(setsOf(PEOPLE));
    expect(only({ document }).chosen).toBeNull();
    expect(document.warnings).toEqual([]);
  });

  it.each<[Instrument["choose"], object]>([
    [{ specificity_at_least: 0.9 }, { kind: "specificity_at_least", least: 0.9 }],
    [{ sensitivity_at_least: 0.9 }, { kind: "sensitivity_at_least", least: 0.9 }],
    [
      { cost_of_false_positive: 1, cost_of_false_negative: 5, prevalence: 0.1 },
      { kind: "cost", prevalence: 0.1, falsePositiveCost: 1, falseNegativeCost: 5 },
    ],
  ])("by the rule named: %j", (choose, rule) => {
    const chosen = only(evaluated(setsOf(PEOPLE), { choose })).chosen;
    expect(chosen?.rule).toEqual(rule);
    expect(chosen?.values.cutoff.value).not.toBeNull();
  });

  it("write tables and read themselves back", () => {
    const { records, document } = found;
    expect(readEvaluation(JSON.parse(writeEvaluation(document)))).toEqual(document);
    const names = ["roc_points", "roc_areas", "cutoffs", "intensities"];
    const tables = evaluationTables(document, records).filter(({ name }) => names.includes(name));
    expect(tables.map(({ name }) => name)).toEqual(names);
    for (const { columns, rows } of tables) {
      expect(rows.length).toBeGreaterThan(0);
      expect(rows.every((row) => row.length === columns.length)).toBe(true);
    }
  });
});

describe("who was measured", () => {
  const odd: Someone[] = [
    { reference: "positive", reading: 3, optical: "invalid" },
    { reference: "positive", reading: null, optical: "not_done" },
    { reference: "not_done", reading: 8 },
    { reference: "indeterminate", reading: 8 },
    { reference: "negative", reading: null, optical: "reactive" },
  ];

  it("everybody is counted or set aside with the reason, invalid results whatever the treatment", () => {
    const treatment = { invalid: "failure", outside_window: "keep", repeat: "last" } as const;
    const { people } = only(evaluated(setsOf([...PEOPLE, ...odd]), {}, { treatment }));
    expect(people).toEqual({
      asked: 25,
      positives: 8,
      negatives: 12,
      setAside: [
        { reason: "rapid_not_done", people: 1 },
        { reason: "reference_not_done", people: 1 },
        { reason: "reference_indeterminate", people: 1 },
        { reason: "invalid", people: 1 },
        { reason: "not_measured", people: 1 },
      ],
    });
  });

  it("adds up, and never leaves a number behind that is none, whatever is read", () => {
    const anyone = fc.record({
      reference: fc.constantFrom<Pair["reference"]>("positive", "negative", "indeterminate", "not_done"),
      reading: fc.option(fc.constantFrom(0, 0.5, 1, 4, 5, 90)),
      optical: fc.constantFrom<Pair["rapid"]>("reactive", "nonreactive", "invalid", "not_done"),
      eye: fc.constantFrom<Pair["rapid"]>("reactive", "nonreactive", "invalid", "not_done"),
      faint: fc.boolean(),
      eyeDevice: fc.constantFrom("D0", "D1"),
      minutes: fc.option(fc.integer({ min: 0, max: 200 })),
    });
    fc.assert(
      fc.property(fc.array(anyone, { maxLength: 25 }), (list) => {
        const { document } = evaluated(setsOf(list), { scale: "log10", choose: "youden" });
        // The document is held against its schema, where numbers are finite, before it is handed out.
        for (const { people, eyes, distribution } of document.intensities) {
          const sum = (counts: typeof people) =>
            counts.positives +
            counts.negatives +
            counts.setAside.reduce((total, one) => total + one.people, 0);
          expect(sum(people)).toBe(list.length);
          for (const eye of eyes) {
            expect(eye.people.asked).toBe(people.positives + people.negatives);
            expect(sum(eye.people)).toBe(eye.people.asked);
          }
          const { minutes } = distribution;
          if (minutes !== null) {
            expect(minutes.bands.reduce((total, { readings }) => total + readings, 0)).toBe(minutes.known);
            expect(minutes.known + minutes.unknown).toBe(people.positives + people.negatives);
          }
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });

  it("no cell where nobody was measured", () => {
    const nobody = setsOf(PEOPLE.map((someone) => ({ ...someone, reading: null })));
    expect(evaluated(nobody).document).toMatchObject({ intensities: [], warnings: [], notes: [] });
  });
});

describe("the eye against the instrument", () => {
  const eyes = (list: readonly Someone[]) => {
    const [eye] = only(evaluated(setsOf(list))).eyes;
    if (eye === undefined) throw new Error("no eye");
    return eye;
  };

  it("is judged on the same devices alone", () => {
    const odd: Someone[] = [
      { reference: "positive", reading: 8, eye: "invalid" },
      { reference: "positive", reading: 8, eye: "not_done" },
      { reference: "negative", reading: 1, eyeDevice: "another" },
    ];
    const { reader, people, against } = eyes([...PEOPLE, ...odd]);
    expect(reader).toBe("R1");
    expect(people).toEqual({
      asked: 23,
      positives: 8,
      negatives: 12,
      setAside: [
        { reason: "rapid_not_done", people: 1 },
        { reason: "other_device", people: 1 },
        { reason: "invalid", people: 1 },
      ],
    });
    expect(against?.eye).toMatchObject({
      sensitivity: { count: 6, total: 8 },
      specificity: { count: 10, total: 12 },
    });
    // The eye calls what the kit's cutoff calls: on the curve itself, so the instrument is no better.
    expectClose(against?.atEyeSpecificity.difference.value, 0, { absolute: 1e-12 });
    expectClose(against?.area, areaByPairs(POSITIVES, NEGATIVES), { relative: 1e-12 });
  });

  it("tells line strength as a score of three steps, faint between absent and clear", () => {
    const list = [
      ...some("positive", [9, 9, 9, 9]),
      ...some("positive", [5, 5], { faint: true }),
      ...some("positive", [1]),
      ...some("negative", [5], { faint: true }),
      ...some("negative", [1, 1, 1, 1, 1]),
      ...some("negative", [9]),
    ];
    const { ordinal } = eyes(list);
    const strength = { positives: [2, 2, 2, 2, 1, 1, 0], negatives: [1, 0, 0, 0, 0, 0, 2] };
    expectClose(ordinal?.area.value, areaByPairs(strength.positives, strength.negatives), {
      relative: 1e-12,
    });
    expect(ordinal?.points.map(({ from, sensitivity }) => [from, sensitivity.count])).toEqual([
      ["faint", 6],
      ["clear", 4],
    ]);
  });

  it("no eye where the instrument is the reader whose results count", () => {
    const [, optical] = setsOf(PEOPLE);
    const readers = { use: "primary", primary: "OR", disagreement: "set_aside" } as const;
    const { eyes: none } = only(evaluated(optical === undefined ? [] : [optical], {}, { readers }));
    expect(none).toEqual([]);
  });
});

describe("the distribution of readings", () => {
  it("has bars of equal width on the scale named, edges in the unit of the readings", () => {
    const wide = [...some("positive", [100, 1000, 10_000]), ...some("negative", [1, 2, 5, 10])];
    const { distribution } = only(evaluated(setsOf(wide), { scale: "log10" }));
    const widths = distribution.histogram.map(({ from, to }) => Math.log10(to) - Math.log10(from));
    expect(distribution.histogramScale).toBe("log10");
    for (const width of widths) expectClose(width, widths[0] as number, { relative: 1e-9 });
    expectClose(distribution.histogram[0]?.from, 1, { relative: 1e-12 });
    expectClose(distribution.histogram.at(-1)?.to, 10_000, { relative: 1e-12 });
    expect(distribution.overlap).toBe(0);
    expect(distribution.groups.map(({ median }) => median)).toEqual([1000, 3.5]);
  });

  it("falls back to bars as they stand where a reading has no logarithm", () => {
    const { distribution, notes } = only(
      evaluated(setsOf([...PEOPLE, { reference: "negative", reading: 0 }]), { scale: "log10" }),
    );
    expect(distribution.histogramScale).toBe("linear");
    expect(notes.map(({ code }) => code)).toContain("no_logarithm");
  });

  it("goes by minutes from the window's own ends, which the window holds", () => {
    const at = (minutes: number | null, reading: number): Someone => ({
      reference: "positive",
      reading,
      minutes,
    });
    const list = [at(3, 1), at(14, 2), at(15, 3), at(20, 5), at(21, 7), at(90, 9), at(null, 4)];
    const { minutes } = only(evaluated(setsOf([...list, ...some("negative", [1])]))).distribution;
    expect(minutes?.edges).toEqual([0, 5, 10, 15, 20, 25, 30, 35, 90]);
    expect([minutes?.known, minutes?.unknown]).toEqual([7, 1]);
    const positive = minutes?.bands.filter(({ truth, readings }) => truth === "positive" && readings > 0);
    expect(positive?.map(({ from, to, readings, median }) => [from, to, readings, median])).toEqual([
      [0, 5, 1, 1],
      [10, 15, 1, 2],
      [15, 20, 2, 4],
      [20, 25, 1, 7],
      [35, 90, 1, 9],
    ]);
  });
});

type ResultRecords = Extract<Study["records"], { shape: "results" }>;
const RESULTS: ResultRecords = {
  shape: "results",
  table: "results.csv",
  columns: {},
  analytes: [{ analyte: "one", rapid: "rapid", reference: "reference", value: "number", probability: true }],
  codes: {
    rapid: { reactive: ["1"], nonreactive: ["0"], invalid: [], not_done: [] },
    reference: { positive: ["1"], negative: ["0"], indeterminate: [], not_done: [] },
  },
};

describe("numbers of result-level records", () => {
  const { calibration } = JSON.parse(
    readFileSync(new URL("../reference/second-opinion-detection-calibration.json", import.meta.url), "utf8"),
  ) as {
    calibration: readonly { probabilities: number[]; ill: number[]; large: number[]; brier: number[] }[];
  };
  const [opinion] = calibration;
  const list = (opinion?.probabilities ?? []).map(
    (reading, at): Someone => ({ reference: opinion?.ill[at] === 1 ? "positive" : "negative", reading }),
  );
  const recorded = (people: readonly Someone[]) => {
    const [, optical] = setsOf(people);
    return optical === undefined ? [] : [{ ...optical, reader: "recorded", method: "recorded" as const }];
  };
  const { reader: _, ...bare } = OPTICAL;

  it("that are probabilities are held against what came true, as R has it", () => {
    const records = tinyRecords(recorded(list), { study: { records: RESULTS, instruments: [bare] } });
    const intensity = only({ document: evaluate(records, tinyInputs) });
    // R 4.2.2: glm(ill ~ offset(qlogis(p)), binomial) and mean((p - ill)²); see tests/reference/README.md.
    expectClose(intensity.calibration?.large.intercept.value, opinion?.large[0] as number, {
      absolute: 1e-7,
    });
    expectClose(intensity.calibration?.brier.score, opinion?.brier[0] as number, { absolute: 1e-10 });
    expect(intensity.lines).toEqual([]);
  });

  it("have the study file's cutoff, itself reactive, on the side that speaks for the condition", () => {
    const lower = {
      ...bare,
      direction: "lower" as const,
      cutoffs: { one: 3 },
      source: "made up",
    };
    const plain = RESULTS.analytes.map((entry) => ({ ...entry, probability: false }));
    const read: ResultRecords = { ...RESULTS, analytes: plain };
    const records = tinyRecords(recorded(PEOPLE), { study: { records: read, instruments: [lower] } });
    const { stated, curve, calibration: none } = only({ document: evaluate(records, tinyInputs) });
    // By hand: of the positives only 2 is 3 or less; of the negatives 6, 4 and 8 are not.
    expect(stated).toMatchObject({
      from: "study",
      sensitivity: { count: 1, total: 8 },
      specificity: { count: 3, total: 12 },
    });
    expectClose(curve.area.value, 1 - areaByPairs(POSITIVES, NEGATIVES), { relative: 1e-12 });
    expect(none).toBeNull();
  });
});

describe("two instruments on the same people", () => {
  it("are compared on those whom both measured", () => {
    const [, first] = setsOf(PEOPLE);
    const [, second] = setsOf(PEOPLE.map((one, at) => ({ ...one, reading: at === 0 ? null : 20 - at })));
    if (first === undefined || second === undefined) throw new Error("no sets");
    const { document } = evaluated(
      [first, { ...second, reader: "OS" }],
      {},
      {
        instruments: [OPTICAL, { ...OPTICAL, reader: "OS", unit: "volts" }],
      },
    );
    expect(document.intensities.map(({ reader, unit }) => [reader, unit])).toEqual([
      ["OR", "units"],
      ["OS", "volts"],
    ]);
    const [comparison] = document.intensityComparisons;
    expect(comparison).toMatchObject({
      first: { reader: "OR", unit: "units" },
      second: { reader: "OS", unit: "volts" },
      people: { asked: 20, positives: 7, negatives: 12, setAside: [{ reason: "first_only", people: 1 }] },
    });
    const both = areaByPairs(POSITIVES.slice(1), NEGATIVES);
    expectClose(comparison?.values?.first.area.value, both, { relative: 1e-12 });
    // Readings fall from person to person, positives first: every positive lies above every negative.
    expectClose(comparison?.values?.difference.value, both - 1, { relative: 1e-12 });
  });
});
