import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { beforeAll, describe, expect, it } from "vitest";
import { minuteAccuracy } from "../../src/figures/minute-accuracy.ts";
import { type PredictiveCurveData, predictiveCurve } from "../../src/figures/predictive-curve.ts";
import { readingTimeHistogram } from "../../src/figures/reading-time.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import type { Specification } from "../../src/figures/specification.ts";
import { GRID, MINUTES, READING, SE, SP, sampleCurve, sampleProgrammes } from "./samples.ts";

const CURVE: PredictiveCurveData = {
  name: "curve",
  analyte: "HBsAg <&>",
  level: 0.95,
  curve: sampleCurve(SE, SP, GRID),
  programmes: sampleProgrammes(SE, SP, [
    ["Antenatal", 0.045],
    ["Outreach", 0.08],
    ["Blood-exposure clinic", 0.02],
  ]),
};
const TIMES = { name: "times", analyte: "HBsAg", ...READING };
const none = { value: null, lower: null, upper: null };

const specifications: [string, Specification][] = [
  ["predictive curve", predictiveCurve(CURVE)],
  ["predictive curve without programmes", predictiveCurve({ ...CURVE, programmes: [] })],
  [
    "predictive curve without any estimate",
    predictiveCurve({
      ...CURVE,
      programmes: [],
      curve: GRID.map((prevalence) => ({ prevalence, ppv: none, npv: none })),
    }),
  ],
  ["predictive curve of nothing", predictiveCurve({ ...CURVE, programmes: [], curve: [] })],
  ["minutes", minuteAccuracy(MINUTES)],
  ["minutes of nobody", minuteAccuracy({ ...MINUTES, bands: [] })],
  ["reading time", readingTimeHistogram(TIMES)],
  [
    "reading time of nobody",
    readingTimeHistogram({ ...TIMES, people: { early: 0, in: 0, late: 0, unknown: 3 }, histogram: [] }),
  ],
];

describe("every specification", () => {
  let valid: (value: unknown) => boolean;
  beforeAll(() => {
    const file = createRequire(import.meta.url).resolve("vega-lite/vega-lite-schema.json");
    const schema = JSON.parse(readFileSync(file, "utf8")) as object;
    valid = new Ajv({ strict: false, validateFormats: false, logger: false }).compile(schema);
  });

  it.each(specifications)("holds to Vega-Lite's own JSON Schema: %s", (_, specification) => {
    expect(valid(JSON.parse(JSON.stringify(specification)))).toBe(true);
  });

  it("the schema finds a fault that is put in", () => {
    expect(
      valid({ ...JSON.parse(JSON.stringify(predictiveCurve(CURVE))), layer: [{ mark: "no such mark" }] }),
    ).toBe(false);
  });

  it.each(specifications)("is plain data, with nothing fetched and no NaN: %s", (_, specification) => {
    const text = JSON.stringify(specification);
    expect(JSON.parse(text)).toEqual(specification);
    expect(text).not.toContain('"url"');
    expect(text.replace(/"\$schema":"[^"]*"/, "")).not.toMatch(/https?:/);
  });

  it.each(specifications)("is drawn without a fault and without NaN: %s", async (_, specification) => {
    const svg = await renderSpecification(specification);
    expect(svg).toMatch(/^<svg [^>]*role="img"[^>]*>.*<\/svg>$/s);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });
});

/** The points of the one path that has this stroke and this class of mark. */
function pathPoints(svg: string, stroke: string): [number, number][] {
  const path =
    new RegExp(`<path d="([^"]*)"[^>]*stroke="${stroke}"`).exec(svg.slice(svg.indexOf("mark-line")))?.[1] ??
    "";
  return [...path.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map((found) => [
    Number(found[1]),
    Number(found[2]),
  ]);
}

describe("what is drawn is what was given", () => {
  // The scales stated in words: 0.1 to 50 % over 600 pixels by ratio, 0 to 100 % over 270 pixels upwards.
  const x = (prevalence: number) => 600 * (Math.log(prevalence / 0.001) / Math.log(0.5 / 0.001));
  const y = (share: number) => 270 * (1 - share);

  it.each([
    ["ppv", "#144a60"],
    ["npv", "#1c2329"],
  ] as const)("the line of %s", async (measure, stroke) => {
    const svg = await renderSpecification(predictiveCurve({ ...CURVE, programmes: [] }));
    const lines = svg.split('class="mark-line').filter((part) => part.includes(`stroke="${stroke}"`));
    const points = pathPoints(`mark-line${lines.at(-1)}`, stroke);
    expect(points).toHaveLength(GRID.length);
    points.forEach(([atX, atY], index) => {
      const point = CURVE.curve[index];
      expect(atX).toBeCloseTo(x(point?.prevalence ?? Number.NaN), 2);
      expect(atY).toBeCloseTo(y(point?.[measure].value ?? Number.NaN), 2);
    });
  });

  it("the programmes' rules and points", async () => {
    const svg = await renderSpecification(predictiveCurve(CURVE));
    for (const { prevalence, ppv } of CURVE.programmes) {
      const [atX, atY] = [x(prevalence), y(ppv.value ?? Number.NaN)];
      const close = [...svg.matchAll(/translate\(([\d.]+),([\d.-]+)\)/g)].some(
        (found) => Math.abs(Number(found[1]) - atX) < 0.01 && Math.abs(Number(found[2]) - atY) < 0.01,
      );
      expect(close).toBe(true);
    }
  });

  it("the bars of the reading times", async () => {
    const svg = await renderSpecification(readingTimeHistogram(TIMES));
    const bars = [
      ...svg.slice(svg.indexOf("layer_1")).matchAll(/d="M([\d.]+),([\d.]+)h([\d.]+)v([\d.]+)h-[\d.]+Z"/g),
    ];
    const most = Math.max(...READING.histogram.map((bar) => bar.people));
    const drawn = bars.map((bar) => Number(bar[4]) * (most / 190));
    const total = READING.people.early + READING.people.in + READING.people.late;
    expect(drawn.reduce((sum, people) => sum + people, 0)).toBeCloseTo(total, 0);
    expect(Math.max(...drawn)).toBeCloseTo(most, 2);
    expect(Number(bars[0]?.[1])).toBeCloseTo((640 * 6) / 60, 2);
  });

  it("says in words what it draws, and what it can't draw", () => {
    const specification = predictiveCurve({
      ...CURVE,
      programmes: [...CURVE.programmes, ...sampleProgrammes(SE, SP, [["Nobody's clinic", 0]])],
    });
    expect(specification.description).toContain("Antenatal, prevalence 4.5 %: PPV 90.2\u202f%");
    expect(specification.description).toContain("Not drawn, prevalence 0 %: Nobody's clinic.");
  });
});

describe("renderSpecification", () => {
  it("gives the same bytes again, whatever was drawn in between", async () => {
    const first = await renderSpecification(predictiveCurve(CURVE));
    await renderSpecification(readingTimeHistogram(TIMES));
    expect(await renderSpecification(predictiveCurve(CURVE))).toBe(first);
    const [one, other] = await Promise.all([
      renderSpecification(predictiveCurve(CURVE)),
      renderSpecification(predictiveCurve(CURVE)),
    ]);
    expect(one).toBe(first);
    expect(other).toBe(first);
  });

  it("begins its ids with the figure's name, so that two figures can share a page", async () => {
    const svg = await renderSpecification(predictiveCurve({ ...CURVE, name: "predictive-hbsag" }));
    const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    const uses = [...svg.matchAll(/url\(#([^)]*)\)/g)].map((found) => found[1]);
    expect(ids.length).toBeGreaterThan(0);
    for (const id of ids) expect(id).toMatch(/^predictive-hbsag-/);
    for (const use of uses) expect(ids).toContain(use);
  });

  it("has a title and a description, escaped, and neither style, script nor anything from outside", async () => {
    const svg = await renderSpecification(predictiveCurve(CURVE));
    expect(svg).toContain("<title>Predictive values of HBsAg &lt;&amp;&gt; over prevalence</title>");
    expect(svg).toContain("<desc>");
    expect(svg).not.toMatch(/ style=|<style|<script|<image|href=|onload/);
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:/);
  });
});
