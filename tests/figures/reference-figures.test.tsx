import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import fc from "fast-check";
import { renderToString } from "preact-render-to-string";
import { beforeAll, describe, expect, it } from "vitest";
import { areaLabels } from "../../src/figures/area-labels.ts";
import { chainRanks, chainTraces } from "../../src/figures/chain-panels.ts";
import { panelTicks } from "../../src/figures/panels.ts";
import { priorPosterior } from "../../src/figures/prior-posterior.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import type { Specification } from "../../src/figures/specification.ts";
import { tippingMap } from "../../src/figures/tipping-map.ts";
import {
  areasOf,
  bordersOf,
  dottedOf,
  hatchOf,
  plotted,
  type Verdict,
} from "../../src/figures/verdict-grid.ts";
import { verificationCurve } from "../../src/figures/verification-curve.ts";
import { BeforeAfterStrip } from "../../src/report/figures/before-after-strip.tsx";
import { golden } from "./golden.ts";
import { BELIEFS, RANKS, TIPPING, TRACES, VERIFICATION } from "./reference-samples.ts";

const DRAWN: [string, Specification][] = [
  ["tipping-map", tippingMap(TIPPING)],
  ["verification-curve", verificationCurve(VERIFICATION)],
  ["prior-posterior", priorPosterior(BELIEFS)],
  ["chain-traces", chainTraces(TRACES)],
  ["chain-ranks", chainRanks(RANKS)],
];
const [first] = BELIEFS.panels;
const EMPTY: [string, Specification][] = [
  ["one verdict all over", tippingMap({ ...TIPPING, verdicts: TIPPING.verdicts.map(() => "met") })],
  ["no reference fits", tippingMap({ ...TIPPING, verdicts: TIPPING.verdicts.map(() => "not_estimable") })],
  [
    "a belief without width in a corner",
    tippingMap({
      ...TIPPING,
      believed: { sensitivity: 1, specificity: 1 },
      ranges: { sensitivity: { from: 1, to: 1 }, specificity: { from: 1, to: 1 } },
    }),
  ],
  [
    "a map of one row",
    tippingMap({ ...TIPPING, sensitivities: [0.9], verdicts: TIPPING.verdicts.slice(0, 21) }),
  ],
  ["no border", verificationCurve({ ...VERIFICATION, borders: [] })],
  ["nobody verified", verificationCurve({ ...VERIFICATION, naive: null })],
  [
    "no estimate at one end",
    verificationCurve({
      ...VERIFICATION,
      points: VERIFICATION.points.map((point, place) =>
        place === 0 ? { ...point, value: null, lower: null, upper: null } : point,
      ),
    }),
  ],
  ["one panel", priorPosterior({ ...BELIEFS, panels: BELIEFS.panels.slice(0, 1) })],
  [
    "a belief that runs to infinity",
    priorPosterior({
      ...BELIEFS,
      panels:
        first === undefined
          ? []
          : [{ ...first, density: [...first.density, { at: 1, posterior: 2, prior: 1e300 }] }],
    }),
  ],
  [
    "chains that never move",
    chainTraces({ ...TRACES, rows: [{ title: "still", kind: "share", chains: [[0.5, 0.5]] }] }),
  ],
  ["no rows", chainRanks({ ...RANKS, rows: [] })],
];
const ALL = [...DRAWN, ...EMPTY];

describe("every specification of a figure about the reference", () => {
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
    expect(svg).toMatch(/<title>[^<]+<\/title><desc>[^<]+<\/desc>/);
  });

  it.each(DRAWN)("stays as it was last looked at: %s", async (name, specification) => {
    expect(golden(name, await renderSpecification(specification))).toBe("same");
  });
});

const SIZE = { width: 410, height: 250 };
const VERDICTS: readonly Verdict[] = ["met", "not_met", "undecided", "not_estimable"];
const grids = fc
  .tuple(fc.integer({ min: 2, max: 9 }), fc.integer({ min: 2, max: 9 }))
  .chain(([columns, rows]) =>
    fc.record({
      across: fc.constant(Array.from({ length: columns }, (_, place) => place / columns)),
      up: fc.constant(Array.from({ length: rows }, (_, place) => place / rows)),
      verdicts: fc.array(fc.constantFrom(...VERDICTS), {
        minLength: columns * rows,
        maxLength: columns * rows,
      }),
    }),
  );

describe("the areas of a map", () => {
  it("cover the plot once, whatever the verdicts", () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const plot = plotted(grid, SIZE);
        const covered = VERDICTS.flatMap((verdict) => areasOf(plot, verdict)).reduce(
          (sum, { x, x2, y, y2 }) => sum + (x2 - x) * (y2 - y),
          0,
        );
        expect(covered).toBeCloseTo(SIZE.width * SIZE.height, 4);
      }),
      { numRuns: 60 },
    );
  });

  it("lie where their verdict is, and borders where it changes", () => {
    const plot = plotted(
      { across: [0, 1], up: [0, 1], verdicts: ["met", "met", "not_met", "undecided"] },
      SIZE,
    );
    expect(plot.at(10, 240)).toBe("met");
    expect(plot.at(10, 10)).toBe("not_met");
    expect(plot.at(400, 10)).toBe("undecided");
    expect(bordersOf(plot)).toEqual([
      { x: 205, x2: 205, y: 0, y2: 125 },
      { x: 0, x2: 410, y: 125, y2: 125 },
    ]);
  });

  it("keep their patterns to themselves", () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const plot = plotted(grid, SIZE);
        for (const { x, x2, y, y2 } of [...hatchOf(plot, "not_met", 9), ...dottedOf(plot, "not_met", 10)]) {
          expect(plot.at(x, y)).toBe("not_met");
          expect(plot.at(x2, y2)).toBe("not_met");
        }
      }),
      { numRuns: 40 },
    );
  });

  it("bear the word of their own verdict, and no two words in one place", () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const plot = plotted(grid, SIZE);
        const labels = areaLabels(plot, () => ({ width: 70, height: 20 }), []);
        expect(new Set(labels.map(({ verdict }) => verdict))).toEqual(new Set(grid.verdicts));
        const inside = labels.filter(({ stand }) => stand !== "outside");
        for (const { verdict, x, x2, y, y2 } of inside) {
          expect([plot.at(x, y), plot.at(x2, y2), plot.at((x + x2) / 2, (y + y2) / 2)]).toEqual([
            verdict,
            verdict,
            verdict,
          ]);
        }
      }),
      { numRuns: 12 },
    );
  });
});

const textOf = (svg: string) => [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map((found) => found[1] ?? "");

describe("the words in the figures", () => {
  it("name every verdict of the map, and what is stated", async () => {
    const words = textOf(await renderSpecification(tippingMap(TIPPING)));
    for (const word of ["met", "not met", "undecided", "stated: 98\u202f% / 99.8\u202f%"]) {
      expect(words).toContain(word);
    }
  });

  it("tell the map's corners and the stated reference to those who can't see it", async () => {
    const svg = await renderSpecification(tippingMap(TIPPING));
    expect(svg).toContain("As stated, sensitivity 98\u202f% and specificity 99.8\u202f%: met.");
    expect(svg).toContain("Sensitivity 90\u202f%, specificity 98\u202f%: not met.");
  });

  it("give each stretch of the curve its verdict, in the bar and in the description", async () => {
    const svg = await renderSpecification(verificationCurve(VERIFICATION));
    expect(textOf(svg)).toEqual(
      expect.arrayContaining(["not met", "undecided", "met", "asked: 95\u202f%", "1/4"]),
    );
    expect(svg).toContain("From 1/4 to 1/3.33: not met. From 1/3.33 to 1.6: undecided. From 1.6 to 4: met.");
  });

  it("name each panel, and both signs, of beliefs", async () => {
    const words = textOf(await renderSpecification(priorPosterior(BELIEFS))).join(" ");
    expect(words).toContain("believed before the data after the data scales in %");
    expect(words).toContain("Share with the condition, everybody");
  });
});

describe("panelTicks", () => {
  it("are round, inside, and far enough apart to be read", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, (one, other) => {
        const [from, to] = [Math.min(one, other), Math.max(one, other)];
        fc.pre(to - from > 1e-3);
        const ticks = panelTicks([from, to], 178, (tick) => String(Number((tick * 100).toPrecision(6))));
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(5);
        for (const tick of ticks) {
          expect(tick).toBeGreaterThanOrEqual(from - 1e-3 * (to - from) - 5e-4);
          expect(tick).toBeLessThanOrEqual(to + 1e-3 * (to - from) + 5e-4);
        }
      }),
    );
  });
});

describe("the strip of before and after", () => {
  const strip = (before: { value: number; lower: number; upper: number } | null) =>
    renderToString(
      <BeforeAfterStrip
        before={before}
        after={{ value: 0.97, lower: 0.93, upper: 0.99 }}
        domain={[0.85, 1]}
        criterion={{ threshold: 0.95, direction: "at_least" }}
      />,
    );

  it("tells both in words", () => {
    expect(strip({ value: 0.95, lower: 0.8, upper: 0.99 })).toContain(
      "<title>before 95.0\u202f% (80.0\u00a0\u2013\u00a099.0), after 97.0\u202f% (93.0\u00a0\u2013\u00a099.0), criterion at least 95\u202f%</title>",
    );
  });

  it("draws what was before hollow, with an arrow where it runs out of the scale", () => {
    expect(strip({ value: 0.95, lower: 0.8, upper: 0.99 })).toMatch(/fig-hollow.*fig-out/s);
    expect(strip({ value: 0.95, lower: 0.9, upper: 0.99 })).not.toContain("fig-out");
    expect(strip(null)).not.toContain("fig-hollow");
  });

  it("stays as it was last looked at", () => {
    expect(golden("before-after-strip", strip({ value: 0.95, lower: 0.8, upper: 0.99 }))).toBe("same");
  });
});
