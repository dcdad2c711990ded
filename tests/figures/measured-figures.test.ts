import { describe, expect, it } from "vitest";
import { calibrationPlot } from "../../src/figures/calibration-plot.ts";
import { curveOverCutoffs } from "../../src/figures/curve-over-cutoffs.ts";
import { doseCurve } from "../../src/figures/dose-curve.ts";
import { intensityByMinutes } from "../../src/figures/intensity-by-minutes.ts";
import { intensityByTruth } from "../../src/figures/intensity-by-truth.ts";
import { concentrationText, placeOn, readingScale, readingTicks } from "../../src/figures/reading-scale.ts";
import { renderSpecification } from "../../src/figures/render.ts";

/** Invented numbers for drawing: layouts are tested with them, never statistics. */
const place = (sensitivity: number, specificity: number) => ({ sensitivity, specificity });

describe("a scale of readings", () => {
  it("puts equal ratios at equal distances", () => {
    const scale = readingScale([0.1, 1000], "log10");
    const [first, second] = [
      placeOn(scale, 10) - placeOn(scale, 1),
      placeOn(scale, 100) - placeOn(scale, 10),
    ];
    expect(first).toBeCloseTo(second, 12);
  });

  it("holds all readings inside, passes over 0 on a ratio scale, and clamps what lies outside", () => {
    const scale = readingScale([0, 2, 50], "log10");
    expect(scale.from).toBeGreaterThan(0);
    expect(scale.from).toBeLessThan(2);
    expect(scale.to).toBeGreaterThan(50);
    expect(placeOn(scale, 0)).toBe(0);
    expect(placeOn(scale, 1e9)).toBe(1);
    expect(readingScale([3, 8], "linear").from).toBeGreaterThanOrEqual(0);
  });

  it.each([
    ["log10", [0.0001, 1e7]],
    ["log10", [2, 9]],
    ["linear", [0, 1]],
    ["linear", [-40, 3000]],
    ["linear", [5, 5]],
  ] as const)("has round ticks inside it, %s %j", (kind, values) => {
    const scale = readingScale(values, kind);
    const ticks = readingTicks(scale, 600);
    expect(ticks.length).toBeGreaterThanOrEqual(2);
    for (const tick of ticks) {
      expect(tick).toBeGreaterThanOrEqual(scale.from * (1 - 1e-9) - 1e-9);
      expect(tick).toBeLessThanOrEqual(scale.to * (1 + 1e-9));
    }
    expect(ticks).toEqual([...new Set(ticks)].sort((one, other) => one - other));
  });

  it("writes concentrations with three digits", () => {
    expect([0.066, 0.5501, 1.2211, 437.2].map(concentrationText)).toEqual(["0.0660", "0.550", "1.22", "437"]);
  });
});

const MARKS = [
  { kind: "stated", label: "cutoff stated: 10", ...place(0.95, 0.99), lower: place(0.9, 0.98) },
  { kind: "eye", label: "R1, by eye", ...place(0.96, 0.985), lower: place(0.91, 0.97) },
] as const;

const curve = (marks: Parameters<typeof curveOverCutoffs>[0]["marks"]) =>
  curveOverCutoffs({
    name: "curve",
    of: "HBsAg",
    level: 0.95,
    points: [0.5, 0.9, 0.97].map((sensitivity, at) => ({
      ...place(sensitivity, 0.999 - at * 0.02),
      lower: place(sensitivity - 0.05, 0.99 - at * 0.02),
      upper: place(Math.min(1, sensitivity + 0.03), 1),
    })),
    marks,
  });

describe("the charts of readings", () => {
  it("say in words what is marked on the curve, and where a scale does not begin at zero", async () => {
    const svg = await renderSpecification(curve([...MARKS]));
    expect(svg).toContain("cutoff stated: 10: sensitivity 95.0");
    expect(svg).toContain("scale begins at 85");
    const whole = await renderSpecification(curve([]));
    expect(whole).not.toContain("begins at");
    expect(whole).toContain("Sensitivity (%)");
  });

  it.each([
    ["higher", "4 below", "9 at or above"],
    ["lower", "4 above", "9 at or below"],
  ] as const)("count the wrong sides of a cutoff, %s readings", async (direction, missed, falsely) => {
    const svg = await renderSpecification(
      intensityByTruth({
        name: "truth",
        of: "HBsAg",
        unit: "units",
        scale: "log10",
        direction,
        bars: [
          { from: 1, to: 10, positives: 4, negatives: 900 },
          { from: 10, to: 100, positives: 94, negatives: 9 },
        ],
        groups: [
          { truth: "positive", people: 98, lower: 20, median: 40, upper: 80 },
          { truth: "negative", people: 909, lower: 2, median: 3, upper: 5 },
        ],
        cutoffs: [{ at: 10, label: "cutoff stated: 10", stated: true, missed: 4, falselyReactive: 9 }],
      }),
    );
    expect(svg).toContain(`>${missed}<`);
    expect(svg).toContain(`>${falsely}<`);
    expect(svg).toContain("median 40, half of them from 20 to 80");
  });

  it("give every band of minutes with its people, and leave out those with none", async () => {
    const band = { lower: 2, median: 4, upper: 6 };
    const svg = await renderSpecification(
      intensityByMinutes({
        name: "minutes",
        of: "HBsAg",
        unit: "units",
        scale: "linear",
        window: { from: 15, to: 20 },
        bands: [
          { truth: "positive", from: 15, to: 20, people: 1303, ...band },
          { truth: "negative", from: 20, to: 25, people: 0, ...band },
        ],
        cutoff: { at: 5, label: "cutoff stated: 5" },
      }),
    );
    expect(svg).toContain(">1,303<");
    expect(svg).not.toContain("Minutes 20");
    expect(svg).toContain("reading window, 15–20 minutes");
  });

  it("show groups of probabilities with their observed share", async () => {
    const groups = [
      { predicted: 0.02, people: 200, observed: 0.015, lower: 0.003, upper: 0.043 },
      { predicted: 0.9, people: 40, observed: 0.8, lower: 0.64, upper: 0.91 },
    ];
    const svg = await renderSpecification(calibrationPlot({ name: "calibration", of: "HBsAg", groups }));
    expect(svg).toMatch(/Given 90\.0.%: 80\.0.% \(64\.0.+91\.0\) with the condition/);
  });
});

describe("the dose curve", () => {
  const draw = (limit: Parameters<typeof doseCurve>[0]["limit"]) =>
    renderSpecification(
      doseCurve({
        name: "dose",
        panel: "Panel",
        unit: "IU/mL",
        level: 0.95,
        chance: 0.95,
        points: [
          { concentration: 0.1, reactive: 3, tested: 60 },
          { concentration: 1, reactive: 59, tested: 60 },
        ],
        curve: [
          { concentration: 0.1, value: 0.05, lower: 0.02, upper: 0.1 },
          { concentration: 1, value: 0.98, lower: 0.93, upper: 1 },
        ],
        limit,
      }),
    );

  it("names the concentration asked for with its limits, and the counts", async () => {
    const svg = await draw({ value: 0.8, lower: 0.6, upper: 1.5 });
    expect(svg).toContain(">0.800 IU/mL (0.600 to 1.50)<");
    expect(svg).toContain(">59 / 60<");
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("is drawn without a limit, and without limits of the limit however far", async () => {
    expect(await draw(null)).not.toContain("IU/mL (");
    const open = await draw({ value: 0.8, lower: 0.6, upper: null });
    expect(open).toContain(">0.800 IU/mL<");
    expect(await draw({ value: 0.8, lower: 1e-30, upper: 1e30 })).not.toMatch(/NaN|Infinity/);
  });
});
