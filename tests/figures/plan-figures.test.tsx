import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { renderToString } from "preact-render-to-string";
import { beforeAll, describe, expect, it } from "vitest";
import { enrolmentChance } from "../../src/figures/enrolment-chance.ts";
import { powerSawTooth } from "../../src/figures/power-saw-tooth.ts";
import { powerTeeth } from "../../src/figures/power-teeth.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import type { Specification } from "../../src/figures/specification.ts";
import { stoppingLooks } from "../../src/figures/stopping-looks.ts";
import { whatIfSizes } from "../../src/figures/what-if-sizes.ts";
import { PlanStrip } from "../../src/report/figures/plan-strip.tsx";
import { golden } from "./golden.ts";
import { CHANCE, LOOKS, SAW_TOOTH, SIZES } from "./plan-samples.ts";

const DRAWN: [string, Specification][] = [
  ["power-saw-tooth", powerSawTooth(SAW_TOOTH)],
  ["enrolment-chance", enrolmentChance(CHANCE)],
  ["what-if-sizes", whatIfSizes(SIZES)],
  ["stopping-looks", stoppingLooks(LOOKS)],
];
const EMPTY: [string, Specification][] = [
  ["power never reached", powerSawTooth({ ...SAW_TOOTH, first: null, stays: null })],
  ["power of nothing", powerSawTooth({ ...SAW_TOOTH, curve: [], first: null, stays: null })],
  ["power first and for good", powerSawTooth({ ...SAW_TOOTH, first: 80 })],
  ["power without an end", powerSawTooth({ ...SAW_TOOTH, stays: null })],
  ["chance without numbers", enrolmentChance({ ...CHANCE, naive: null, assured: null })],
  [
    "what-ifs that no number can show",
    whatIfSizes({ ...SIZES, cells: SIZES.cells.map((cell) => ({ ...cell, stays: null })) }),
  ],
  ["one what-if", whatIfSizes({ ...SIZES, cells: SIZES.cells.slice(4, 5) })],
  ["one look", stoppingLooks({ ...LOOKS, looks: LOOKS.looks.slice(2) })],
];
const ALL = [...DRAWN, ...EMPTY];

describe("every specification of a plan's figure", () => {
  let valid: (value: unknown) => boolean;
  beforeAll(() => {
    const file = createRequire(import.meta.url).resolve("vega-lite/vega-lite-schema.json");
    const schema = JSON.parse(readFileSync(file, "utf8")) as object;
    valid = new Ajv({ strict: false, validateFormats: false, logger: false }).compile(schema);
  });

  it.each(ALL)("holds to Vega-Lite's own JSON Schema, as plain data: %s", (_, specification) => {
    const text = JSON.stringify(specification);
    expect(valid(JSON.parse(text))).toBe(true);
    expect(JSON.parse(text)).toEqual(specification);
    expect(text.replace(/"\$schema":"[^"]*"/, "")).not.toMatch(/https?:|"url"/);
  });

  it.each(ALL)("is drawn without a fault and without NaN: %s", async (_, specification) => {
    const svg = await renderSpecification(specification);
    expect(svg).toMatch(/^<svg [^>]*role="img"[^>]*>.*<\/svg>$/s);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    expect(svg).toMatch(/<title>[^<]+<\/title>/);
  });
});

describe("layouts as they were last looked at", () => {
  it.each(DRAWN)("%s", async (name, specification) => {
    expect(golden(name, await renderSpecification(specification))).toBe("same");
  });

  it("plan-strip", () => {
    const strip = (
      <PlanStrip
        expected={0.985}
        criterion={0.95}
        direction="at_least"
        passing={{ from: 329 / 338, to: 1 }}
        domain={[0.9, 1]}
      />
    );
    expect(golden("plan-strip", renderToString(strip))).toBe("same");
  });
});

describe("teeth", () => {
  it("hold every total once, in order, and begin where another failure is allowed", () => {
    const teeth = powerTeeth(SAW_TOOTH.curve);
    expect(teeth.map(({ from, to }) => [from, to])).toEqual([
      [1, 19],
      [20, 34],
      [35, 49],
      [50, 64],
      [65, 79],
      [80, 94],
      [95, 109],
      [110, 120],
    ]);
    expect(teeth.map(({ allowed }) => allowed)).toEqual([null, 0, 1, 2, 3, 4, 5, 6]);
    expect(teeth.reduce((all, { from, to }) => all + to - from + 1, 0)).toBe(SAW_TOOTH.curve.length);
  });

  it("a gap in the totals ends a tooth", () => {
    const curve = [10, 11, 13].map((total) => ({ total, needed: total, power: 0.5 }));
    expect(powerTeeth(curve).map(({ from, to }) => [from, to])).toEqual([
      [10, 11],
      [13, 13],
    ]);
  });
});

/** Where a mark of this colour has its points, pixels of the plot. */
function pointsOf(svg: string, stroke: string): [number, number][] {
  const path = [...svg.matchAll(/<path d="(M[^"]*)"[^>]*stroke="(#[0-9a-f]+)"/g)].find(
    (found) => found[2] === stroke && (found[1] ?? "").includes("L"),
  );
  return [...(path?.[1] ?? "").matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map((at) => [
    Number(at[1]),
    Number(at[2]),
  ]);
}

describe("what is drawn is what was given", () => {
  it("the teeth: 0 to 120 people over 620 pixels, 0 to 100 % over 220 pixels upwards", async () => {
    const svg = await renderSpecification(powerSawTooth(SAW_TOOTH));
    const points = pointsOf(svg.slice(svg.indexOf("mark-line")), "#144a60");
    const ends = powerTeeth(SAW_TOOTH.curve).flatMap(({ from, to, powerFrom, powerTo }) => [
      [from, powerFrom],
      [to, powerTo],
    ]);
    expect(points).toHaveLength(ends.length);
    ends.forEach(([people, power], at) => {
      expect(points[at]?.[0]).toBeCloseTo((620 * (people ?? 0)) / 120, 2);
      expect(points[at]?.[1]).toBeCloseTo(220 * (1 - (power ?? 0)), 2);
    });
  });

  it("the borders of the looks as counts of wrong results", async () => {
    const { description } = stoppingLooks(LOOKS);
    expect(description).toContain("At 70: no stopping for success, fails with 4 wrong or more.");
    expect(description).toContain("At 105: passes with 0 wrong or fewer, fails with 4 wrong or more.");
    expect(description).toContain("At 140: passes with 3 wrong or fewer, fails with 4 wrong or more.");
  });

  it("a what-if that nothing can show is said in words", () => {
    expect(whatIfSizes(SIZES).description).toContain(
      "expected 96\u202f%, criterion 97\u202f%: can't be shown.",
    );
  });

  it("the strip says in words what it draws", () => {
    const strip = renderToString(
      <PlanStrip
        expected={0.02}
        criterion={0.05}
        direction="at_most"
        passing={{ from: 0, to: 9 / 338 }}
        domain={[0, 0.1]}
      />,
    );
    expect(strip).toContain(
      "expected 2\u202f%, criterion at most 5\u202f%, met by results of 2.7\u202f% or less",
    );
  });
});
