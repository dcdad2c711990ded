import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { renderToString } from "preact-render-to-string";
import { beforeAll, describe, expect, it } from "vitest";
import { bestByPrevalence } from "../../src/figures/best-by-prevalence.ts";
import { costFrontier } from "../../src/figures/cost-frontier.ts";
import { dependenceSweep } from "../../src/figures/dependence-sweep.ts";
import { logit, logitDomain, logitPixel } from "../../src/figures/logit-scale.ts";
import { predictiveMap } from "../../src/figures/predictive-map.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import type { Specification } from "../../src/figures/specification.ts";
import { spreadLabels } from "../../src/figures/spread-labels.ts";
import { stepwisePredictive } from "../../src/figures/stepwise-predictive.ts";
import { tornado } from "../../src/figures/tornado.ts";
import { ALGORITHM, layOutAlgorithm, type TreeStep } from "../../src/report/figures/algorithm-layout.ts";
import { AlgorithmTree } from "../../src/report/figures/algorithm-tree.tsx";
import { PeopleArray } from "../../src/report/figures/people-array.tsx";
import { FATES } from "../../src/report/figures/person-marks.ts";
import { PpvStrip } from "../../src/report/figures/ppv-strip.tsx";
import * as samples from "./algorithm-samples.ts";
import { golden } from "./golden.ts";

const { BEST, FRONTIER, MAP, STEPWISE, SWEEP, TORNADO } = samples;

const DRAWN: [string, Specification][] = [
  ["stepwise-predictive", stepwisePredictive(STEPWISE)],
  ["dependence-sweep", dependenceSweep(SWEEP)],
  ["tornado", tornado(TORNADO)],
  ["cost-frontier", costFrontier(FRONTIER)],
  ["best-by-prevalence", bestByPrevalence(BEST)],
  ["predictive-map", predictiveMap(MAP)],
];
const nothing = STEPWISE.points.map((point) => ({ ...point, afterReactive: [null, null], ppv: null }));
const EMPTY: [string, Specification][] = [
  ["predictive values of nobody", stepwisePredictive({ ...STEPWISE, points: nothing, target: null })],
  ["one kit, no channel", stepwisePredictive({ ...STEPWISE, kits: ["Kit Q"], channels: [] })],
  ["a sweep of nothing", dependenceSweep({ ...SWEEP, lines: [], stated: 0, target: null })],
  ["a sweep over a spread", dependenceSweep({ ...SWEEP, over: "spread", stated: 0.4 })],
  ["no bar", tornado({ ...TORNADO, bars: [] })],
  ["no algorithm", costFrontier({ ...FRONTIER, points: [] })],
  ["one algorithm for nothing", costFrontier({ ...FRONTIER, points: FRONTIER.points.slice(4, 5) })],
  [
    "one best",
    bestByPrevalence({ ...BEST, stretches: BEST.stretches.slice(1, 2), chances: [], channels: [] }),
  ],
  ["a map without a target", predictiveMap({ ...MAP, target: null })],
  ["a map of nobody", predictiveMap({ ...MAP, cells: MAP.cells.map((cell) => ({ ...cell, ppv: null })) })],
];
const ALL = [...DRAWN, ...EMPTY];

describe("every specification of an algorithm's figure", () => {
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

const EXPECTED = {
  found: 556,
  unclearPositive: 21.3,
  missed: 22.7,
  falseAlarm: 3.4,
  unclearNegative: 61,
  rest: 9335.6,
};
const treeOf = (steps: readonly TreeStep[], prevalence = 0.06) => (
  <AlgorithmTree
    title="Kit Q <&> Kit V"
    steps={steps}
    leads={samples.sampleLeads(steps, prevalence)}
    all={samples.peopleOf(prevalence)}
    people={10_000}
  />
);

describe("layouts as they were last looked at", () => {
  it.each(DRAWN)("%s", async (name, specification) => {
    expect(golden(name, await renderSpecification(specification))).toBe("same");
  });

  it.each([
    ["algorithm-serial", samples.SERIAL],
    ["algorithm-majority", samples.MAJORITY],
    ["algorithm-joined", samples.JOINED],
  ] as const)("%s", (name, steps) => {
    expect(golden(name, renderToString(treeOf(steps)))).toBe("same");
  });

  it("people-array", () => {
    expect(golden("people-array", renderToString(<PeopleArray title="People" expected={EXPECTED} />))).toBe(
      "same",
    );
  });

  it("ppv-strip", () => {
    const strip = (
      <PpvStrip
        ppv={{ value: 0.956, lower: 0.93, upper: 0.975 }}
        independent={0.992}
        target={0.99}
        domain={[0.9, 1]}
      />
    );
    expect(golden("ppv-strip", renderToString(strip))).toBe("same");
  });
});

const TREES = {
  single: samples.SINGLE,
  serial: samples.SERIAL,
  parallel: samples.PARALLEL,
  majority: samples.MAJORITY,
  joined: samples.JOINED,
  eight: samples.EIGHT,
};

describe.each(Object.entries(TREES))("the tree of an algorithm, %s", (_, steps) => {
  const leads = samples.sampleLeads(steps, 0.06);
  const layout = layOutAlgorithm(steps, leads, samples.peopleOf(0.06));

  it("draws every step once, and no box on another", () => {
    expect(layout.steps.map(({ step }) => step.id).sort()).toEqual(steps.map(({ id }) => id).sort());
    layout.steps.forEach((one, at) => {
      for (const other of layout.steps.slice(at + 1)) {
        const apart =
          one.x + ALGORITHM.box <= other.x ||
          other.x + ALGORITHM.box <= one.x ||
          one.y + one.height <= other.y ||
          other.y + other.height <= one.y;
        expect(apart).toBe(true);
      }
    });
  });

  it("draws every exit that anybody takes, and loses nobody on the way", () => {
    const taken = leads.filter(({ diseased, nondiseased }) => diseased + nondiseased > 0);
    expect(layout.edges.filter(({ result }) => result !== null)).toHaveLength(taken.length);
    const ended = layout.ends.filter(({ status }) => status !== null);
    const all = samples.peopleOf(0.06);
    for (const truth of ["diseased", "nondiseased"] as const) {
      const sum = ended.reduce((total, { flow }) => total + flow[truth], 0);
      expect(sum).toBeCloseTo(all[truth], 6);
    }
  });

  it("no end stands on another or on a box", () => {
    const boxes = [
      ...layout.ends.map(({ x, y, below }) => ({
        left: below ? x - ALGORITHM.box / 2 : x,
        right: (below ? x - ALGORITHM.box / 2 : x) + ALGORITHM.end,
        top: below ? y - 6 : y - 20,
        bottom: below ? y + 38 : y + 22,
      })),
      ...layout.steps.map(({ x, y, height }) => ({
        left: x,
        right: x + ALGORITHM.box,
        top: y,
        bottom: y + height,
      })),
    ];
    boxes.forEach((one, at) => {
      for (const other of boxes.slice(at + 1)) {
        const apart =
          one.right <= other.left ||
          other.right <= one.left ||
          one.bottom <= other.top ||
          other.bottom <= one.top;
        expect(apart).toBe(true);
      }
    });
  });

  it("tells the two truths apart by more than colour, and says every exit in words", () => {
    const svg = renderToString(treeOf(steps));
    expect(svg).toContain('class="fig-flow-full"');
    expect(svg).toMatch(/class="fig-flow-hollow/);
    const words = /<desc>([^<]*)<\/desc>/.exec(svg)?.[1] ?? "";
    expect(words.match(/truly negative/g)?.length).toBe(layout.edges.length);
    expect(svg).not.toMatch(/NaN|undefined/);
  });
});

describe("what is drawn is what was given", () => {
  it("an array of whole people that add up to 10,000", () => {
    const svg = renderToString(<PeopleArray title="People" expected={EXPECTED} />);
    const dots = (kind: string) =>
      [...svg.matchAll(new RegExp(`class="fig-person ${kind}" d="([^"]*)"`, "g"))]
        .map((path) => path[1]?.match(/M/g)?.length ?? 0)
        .reduce((sum, one) => sum + one, 0);
    expect(dots("fig-found")).toBe(556);
    expect(dots("fig-missed")).toBe(23);
    expect(dots("fig-false-alarm")).toBe(3);
    // The rest: single points, and full columns of 50 drawn as dotted lines.
    const lines = /stroke-dasharray="[^"]*" d="([^"]*)"/.exec(svg)?.[1]?.match(/V/g)?.length ?? 0;
    const points = [...svg.matchAll(/class="fig-person fig-rest" d="([^"]*)"/g)]
      .map((path) => path[1]?.match(/M[^M]*h0/g)?.length ?? 0)
      .reduce((sum, one) => sum + one, 0);
    expect(lines * 50 + points).toBe(9336);
    expect(FATES).toHaveLength(6);
  });

  it("the strip says PPV, independence and target in words", () => {
    const strip = renderToString(
      <PpvStrip
        ppv={{ value: 0.956, lower: 0.93, upper: 0.975 }}
        independent={0.992}
        target={0.99}
        domain={[0.9, 1]}
      />,
    );
    expect(strip).toContain("95.6\u202f%");
    expect(strip).toContain("99.2\u202f% if independent");
    expect(strip).toContain("target at least 99\u202f%");
  });

  it("a sweep says what independence would promise and what is left of it", () => {
    // 99.5 % at 0 and 0.995 / (0.995 + 0.005 × 10) at 0.1, from the sample's own formula.
    expect(dependenceSweep(SWEEP).description).toContain(
      "Antenatal clinics: 99.5\u202f% if independent, 95.2\u202f% at the 0.1 that is used.",
    );
  });

  it("the tornado says both outcomes of each input", () => {
    expect(tornado(TORNADO).description).toContain("prevalence: 94.3\u202f% at 2.2, 96.5\u202f% at 3.9.");
  });

  it("the border of the map runs where the target begins to be reached", async () => {
    const svg = await renderSpecification(predictiveMap(MAP));
    const edges = MAP.cells.filter(({ ppv, phi, prevalence }) => {
      const next = MAP.cells.find((cell) => cell.phi === phi && cell.prevalence > prevalence);
      return next !== undefined && (ppv ?? 0) >= 0.99 !== (next.ppv ?? 0) >= 0.99;
    });
    expect(edges.length).toBeGreaterThan(0);
    expect(svg.match(/stroke="#8f5410"/g)?.length).toBeGreaterThanOrEqual(edges.length);
  });
});

describe("a scale stretched towards 100 %", () => {
  it("keeps equal odds ratios equally far apart", () => {
    const domain = [0.1, 0.999] as const;
    const at = (share: number) => logitPixel(share, domain, 300);
    expect(at(0.5) - at(0.9)).toBeCloseTo(at(0.1) - at(0.5), 9);
    expect(at(0.999)).toBeCloseTo(0, 9);
    expect(at(0.1)).toBeCloseTo(300, 9);
    expect(logit(0.5)).toBe(0);
  });

  it("ends at round shares around what is shown", () => {
    expect(logitDomain([0.3, 0.97])).toEqual([0.1, 0.99]);
    expect(logitDomain([])).toEqual([0.5, 0.9]);
    expect(logitDomain([0.99999999])).toEqual([0.5, 0.999999]);
  });
});

describe("labels beside the ends of lines", () => {
  it("stay where they are when there is room", () => {
    expect(spreadLabels([10, 60, 200], 15, 0, 300)).toEqual([10, 60, 200]);
  });

  it("move apart around their middle, in order, and stay inside", () => {
    expect(spreadLabels([100, 102], 15, 0, 300)).toEqual([93.5, 108.5]);
    expect(spreadLabels([102, 100], 15, 0, 300)).toEqual([108.5, 93.5]);
    expect(spreadLabels([2, 1], 15, 0, 300)).toEqual([15, 0]);
    expect(spreadLabels([299, 298], 15, 0, 300)).toEqual([300, 285]);
  });
});
