import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { DeviceResult } from "../../src/records/model.ts";
import { lineRecords, readings } from "./tiny-devices.ts";
import { setOf, tinyInputs, tinyRecords, tinyStudy, twentyPeople } from "./tiny-study.ts";

const sets = [setOf(twentyPeople())];
const evaluated = (results: readonly DeviceResult[], study = {}) =>
  evaluate(tinyRecords(sets, { results, study: { records: lineRecords, ...study } }), tinyInputs);

describe("two readers of the same devices", () => {
  it("are crossed device by device, invalid and unread ones apart", () => {
    const { agreement } = evaluated(readings({ R1: "+++--!!- ", R2: "++-+-!+ -" }));
    expect(agreement).toHaveLength(1);
    expect(agreement[0]).toMatchObject({
      first: "R1",
      second: "R2",
      methods: ["eye", "eye"],
      counts: { bothReactive: 2, firstOnly: 1, secondOnly: 1, bothNonreactive: 1 },
      invalid: { both: 1, firstOnly: 1, secondOnly: 0 },
      unpaired: 2,
      overall: { count: 3, total: 5 },
      positivePercentAgreement: { count: 2, total: 3 },
      negativePercentAgreement: { count: 1, total: 2 },
    });
    // By hand: twice 2 over 2 * 2 + 2; twice 1 over 2 * 1 + 2.
    expect(agreement[0]?.positiveAgreement.value).toBeCloseTo(4 / 6, 12);
    expect(agreement[0]?.negativeAgreement.value).toBeCloseTo(2 / 4, 12);
    expect(agreement[0]?.notes.map(({ code }) => code)).toContain("read_by_one");
  });

  it("are crossed by how strongly they saw the line, eyes only", () => {
    const faint: Record<string, readonly number[]> = { R1: [2, 3], R2: [3, 4] };
    const results = readings({ R1: "+++--", R2: "+++-+", OR: "+++--" }, (device, reader) => ({
      faint: faint[reader]?.includes(device) ?? false,
      ...(reader === "OR" ? { method: "optical" as const } : {}),
    }));
    const [eyes, ...withInstrument] = evaluated(results).agreement;
    expect(withInstrument.map(({ lineStrength }) => lineStrength)).toEqual([null, null]);
    // By hand, absent, faint, clear: d1 clear and clear, d2 faint and clear, d3 faint and faint,
    // d4 absent and faint, d5 absent and clear.
    expect(eyes?.lineStrength?.table).toEqual([
      [0, 1, 1],
      [0, 1, 1],
      [0, 0, 1],
    ]);
    // Linear weights 1, 1/2, 0: seen (2 + 2 * 1/2) / 5; expected from the margins 2, 2, 1 and 0, 2, 3.
    const seen = 3 / 5;
    const expected = (2 * (0 + 2 / 2 + 0) + 2 * (0 / 2 + 2 + 3 / 2) + 1 * (0 + 2 / 2 + 3)) / 25;
    expect(eyes?.lineStrength?.weightedKappa.value).toBeCloseTo((seen - expected) / (1 - expected), 12);
  });

  it("show the paradox of kappa where reactive devices are rare", () => {
    const first = `${"+".repeat(9)}${"-".repeat(391)}`;
    const second = `${"+".repeat(5)}${"-".repeat(4)}${"+".repeat(4)}${"-".repeat(387)}`;
    const [pair] = evaluated(readings({ R1: first, R2: second })).agreement;
    expect(pair?.counts).toEqual({ bothReactive: 5, firstOnly: 4, secondOnly: 4, bothNonreactive: 387 });
    // By hand: po = .98; pe = (9² + 391²) / 400²; AC1's pe = 2 (9/400) (391/400).
    const expected = (81 + 152881) / 160000;
    const hard = 2 * (9 / 400) * (391 / 400);
    expect(pair?.kappa.value).toBeCloseTo((0.98 - expected) / (1 - expected), 12);
    expect(pair?.pabak.value).toBeCloseTo(0.96, 12);
    expect(pair?.ac1.value).toBeCloseTo((0.98 - hard) / (1 - hard), 12);
    // Both readers use the categories alike, so alpha = 1 - (n - 1) / n * (1 - po) / (1 - pe), n = 800 ratings.
    expect(pair?.krippendorffAlpha).toBeCloseTo(1 - ((799 / 800) * 0.02) / (1 - expected), 12);
    expect(pair?.prevalenceIndex).toBeCloseTo((5 - 387) / 400, 12);
    expect(pair?.biasIndex).toBe(0);
    expect(pair?.paradox).toBe("prevalence");
  });

  it("come in a fixed order, the primary reader and eyes first, instruments by name and method", () => {
    const results = readings({ OR: "+-", R0: "+-", R1: "+-", "R1 ": "+-" }, (_, reader) => {
      if (reader === "OR") return { method: "optical" };
      return reader === "R1 " ? { reader: "R1", method: "eye_photo" } : {};
    });
    const pairs = evaluated(results).agreement.map(({ first, second }) => `${first}, ${second}`);
    expect(pairs).toEqual([
      "R1, R1 (eye_photo)",
      "R1, R0",
      "R1, OR",
      "R1 (eye_photo), R0",
      "R1 (eye_photo), OR",
      "R0, OR",
    ]);
  });

  it("are told apart by kit, analyte and specimen type", () => {
    const results = [
      ...readings({ R1: "++", R2: "+-" }),
      ...readings({ R1: "--", R2: "+-" }, (device) => ({ device: `other${device}`, kit: "other-kit" })),
    ];
    const records = tinyRecords(sets, { results, study: { records: lineRecords } });
    const kits = [...records.kits, ...records.kits.map((kit) => ({ ...kit, id: "other-kit" }))];
    const { agreement } = evaluate({ ...records, kits }, tinyInputs);
    expect(agreement.map(({ kit, overall }) => [kit, overall.count])).toEqual([
      ["made-up-kit", 1],
      ["other-kit", 1],
    ]);
  });

  it("are people's results where no device is recorded", () => {
    const results = readings({ R1: "++-", R2: "+--" }, (device, reader) => ({
      device: `row ${reader}${device}`,
      person: `p${device}`,
    }));
    const [pair] = evaluated(results, { records: tinyStudy.records }).agreement;
    expect(pair?.counts).toEqual({ bothReactive: 1, firstOnly: 1, secondOnly: 0, bothNonreactive: 1 });
    expect(pair?.disagreements.map(({ by }) => by)).not.toContain("line");
  });

  it("leave a device out that was recorded as invalid and that nobody read", () => {
    const results = readings({ R1: "+-!", R2: "+-" }, (device) =>
      device === 3 ? { reason: "recorded_invalid", minutes: null, window: "unknown" } : {},
    );
    expect(evaluated(results).agreement[0]).toMatchObject({
      unpaired: 0,
      invalid: { both: 0, firstOnly: 0, secondOnly: 0 },
    });
  });
});

describe("disagreements", () => {
  it("are shares of the devices in each group, by what the first reader saw", () => {
    const results = readings({ R1: "++++--", R2: "++---+" }, (device) => ({
      faint: device === 3 || device === 4 || device === 2,
      lot: device < 4 ? "L2" : "L10",
      window: device === 6 ? "late" : "in",
      operator: null,
      site: device === 1 ? "south" : "north",
    }));
    const [pair] = evaluated(results).agreement;
    expect(
      pair?.disagreements.map(({ by, group, discordant }) => [by, group, discordant.count, discordant.total]),
    ).toEqual([
      ["line", "clear", 0, 1],
      ["line", "faint", 2, 3],
      ["line", "absent", 1, 2],
      ["window", "in", 2, 5],
      ["window", "late", 1, 1],
      ["lot", "L10", 2, 3],
      ["lot", "L2", 1, 3],
      ["site", "north", 3, 5],
      ["site", "south", 0, 1],
    ]);
  });
});

describe("several eye readers", () => {
  it("are judged together where there are three", () => {
    const results = readings({ R1: "++--", R2: "++-+", R3: "+---" });
    const [many] = evaluated(results).manyReaders;
    expect(many).toMatchObject({ readers: ["R1", "R2", "R3"], devices: 4 });
    // By hand: mean agreement of pairs (1 + 1/3 + 1 + 1/3) / 4 = 2/3; 6 of 12 ratings reactive: pe = 1/2.
    expect(many?.fleissKappa.value).toBeCloseTo((2 / 3 - 1 / 2) / (1 / 2), 12);
  });

  it("are judged together where one of two did not read everything, but not otherwise", () => {
    expect(evaluated(readings({ R1: "++--", R2: "++-" })).manyReaders[0]).toMatchObject({ devices: 3 });
    expect(evaluated(readings({ R1: "++--", R2: "++-+" })).manyReaders).toEqual([]);
  });

  it("do not include instruments", () => {
    const results = readings({ R1: "++--", R2: "++-+", OR: "+" }, (_, reader) =>
      reader === "OR" ? { method: "optical" } : {},
    );
    expect(evaluated(results).manyReaders).toEqual([]);
  });
});

describe("readers of whom little can be said", () => {
  it("one reader alone is no pair", () => {
    const { agreement, manyReaders } = evaluated(readings({ R1: "++--" }));
    expect(agreement).toEqual([]);
    expect(manyReaders).toEqual([]);
  });

  it.each([
    ["all devices alike", { R1: "----", R2: "----" }],
    ["all invalid", { R1: "!!!", R2: "!!!" }],
    ["one device", { R1: "+", R2: "-" }],
    ["no agreement at all", { R1: "++--", R2: "--++" }],
    ["three alike, one of them not reading all", { R1: "----", R2: "----", R3: "--" }],
    ["nobody read the same device", { R1: "++ ", R2: "  -", R3: " " }],
  ])("%s: notes, no number that is none", (_, byReader) => {
    const evaluation = evaluated(readings(byReader));
    expect(writeEvaluation(evaluation)).not.toMatch(/NaN|Infinity/);
    for (const pair of evaluation.agreement) expect(pair.notes).not.toEqual([]);
    for (const many of evaluation.manyReaders) expect(many.notes).not.toEqual([]);
  });

  it("say why kappa is missing", () => {
    const [pair] = evaluated(readings({ R1: "----", R2: "----" })).agreement;
    expect(pair?.kappa.value).toBeNull();
    expect(pair?.overall).toMatchObject({ count: 4, total: 4 });
    expect(pair?.notes.find(({ path }) => path === "kappa")?.code).toBe("no_variation");
  });
});
