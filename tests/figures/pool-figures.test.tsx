import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { renderToString } from "preact-render-to-string";
import { beforeAll, describe, expect, it } from "vitest";
import { renderSpecification } from "../../src/figures/render.ts";
import { smallStudyFunnel } from "../../src/figures/small-study-funnel.ts";
import type { Specification } from "../../src/figures/specification.ts";
import { byKind, studyLook } from "../../src/figures/study-looks.ts";
import { summaryPlot } from "../../src/figures/summary-plot.ts";
import { PairedForest } from "../../src/report/figures/paired-forest.tsx";
import { PlaceStrip } from "../../src/report/figures/place-strip.tsx";
import { golden } from "./golden.ts";
import { FUNNEL, PAIRED, PLOT } from "./pool-samples.ts";

const DRAWN: [string, Specification][] = [
  ["summary-plot", summaryPlot(PLOT)],
  ["small-study-funnel", smallStudyFunnel(FUNNEL)],
];
const bare = { ...PLOT, kinds: [], summary: null, confidence: [], prediction: [], curve: [] };
const EMPTY: [string, Specification][] = [
  ["studies alone, no summary", summaryPlot(bare)],
  ["no study", summaryPlot({ ...bare, studies: [] })],
  ["a funnel without a line", smallStudyFunnel({ ...FUNNEL, line: [], slopeP: null, kinds: [] })],
  ["a funnel of one study", smallStudyFunnel({ ...FUNNEL, studies: FUNNEL.studies.slice(0, 1) })],
];
const ALL = [...DRAWN, ...EMPTY];

describe("every specification of pooled studies", () => {
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
  });

  it.each(DRAWN)("%s is drawn as it was", async (name, specification) => {
    expect(golden(name, await renderSpecification(specification))).toBe("same");
  });
});

describe("the summary plot", () => {
  it("draws the larger study as the larger area, and each study once", async () => {
    const points = (
      summaryPlot(PLOT) as { layer: { data?: { values: { study?: string; area?: number }[] } }[] }
    ).layer
      .flatMap(({ data }) => data?.values ?? [])
      .filter(({ study }) => study !== undefined);
    expect(points.map(({ study }) => study).sort()).toEqual(["A", "B", "C", "D"]);
    const area = (name: string) => points.find(({ study }) => study === name)?.area ?? 0;
    expect(area("A")).toBeGreaterThan(area("D"));
    expect(area("D")).toBeGreaterThan(area("C"));
  });

  it("says in words where the summary point is", () => {
    expect(summaryPlot(PLOT).description).toContain(
      "The summary point is at sensitivity 85.0\u202f% and specificity 90.0\u202f%.",
    );
  });
});

describe("marks of kinds", () => {
  it("differ for eight kinds", () => {
    const looks = Array.from({ length: 8 }, (_, at) => JSON.stringify(studyLook(at)));
    expect(new Set(looks).size).toBe(8);
  });

  it("are given by kind, those of none last; all alike without kinds", () => {
    expect(byKind(PLOT.studies, ["venous", "fingerstick"]).map(({ at, mine }) => [at, mine.length])).toEqual([
      [0, 2],
      [1, 1],
      [2, 1],
    ]);
    expect(byKind(PLOT.studies, [])).toEqual([{ at: 0, mine: PLOT.studies }]);
  });
});

describe("the paired forest", () => {
  const html = renderToString(<PairedForest {...PAIRED} />);

  it("is drawn as it was", () => {
    expect(golden("paired-forest", html)).toBe("same");
  });

  it("has a row for each study and summary, and a strip only where somebody was", () => {
    expect(html.match(/<tr class="fig-group">/g)).toHaveLength(3);
    expect(html.match(/<tr class="fig-summary">/g)).toHaveLength(2);
    const studies = html.match(/<title>estimate /g) ?? [];
    expect(studies).toHaveLength(4);
  });
});

describe("the strip of a summary", () => {
  const none = { value: null, lower: null, upper: null };
  const strip = (props: Partial<Parameters<typeof PlaceStrip>[0]>) =>
    renderToString(
      <PlaceStrip
        summary={{ value: 0.85, lower: 0.8, upper: 0.9 }}
        prediction={{ value: 0.85, lower: 0.6, upper: 0.95 }}
        domain={[0.5, 1]}
        label="both"
        width={100}
        {...props}
      />,
    );

  // By hand: 0.6 and 0.95 on a scale of 100 pixels from 0.5 to 1 are at 20 and 90.
  it("reaches as far as the prediction does", () => {
    expect(strip({})).toContain('class="fig-place" d="M20 13H90"');
  });

  it("has an arrow where the prediction runs out of the scale", () => {
    expect(strip({ prediction: { value: 0.85, lower: 0.2, upper: 0.95 } })).toContain("fig-arrow");
    expect(strip({})).not.toContain("fig-arrow");
  });

  it("has no thin bar without a prediction, and nothing at all without a summary", () => {
    expect(strip({ prediction: none })).not.toContain("fig-place");
    expect(strip({ summary: none, prediction: none })).not.toMatch(/fig-place|fig-estimate|fig-interval/);
  });
});
