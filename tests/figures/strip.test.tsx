import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { DOT_GIVES_WAY, Strip, StripScale } from "../../src/report/figures/strip.tsx";
import { type StripDomain, stripDomain, stripTicks } from "../../src/report/figures/strip-scale.ts";

const DOMAIN: StripDomain = [0.85, 1];
const WIDTH = 210;
/** The scale in words: from 85 to 100 % over 210 pixels. */
const at = (share: number) => ((share - 0.85) / 0.15) * 210;
const strip = (lower: number | null, value: number | null, upper: number | null, more: object = {}) =>
  renderToString(<Strip estimate={{ lower, value, upper }} domain={DOMAIN} width={WIDTH} {...more} />);
const attribute = (markup: string, tag: string, name: string) =>
  Number(new RegExp(`<${tag}[^>]* ${name}="([^"]*)"`).exec(markup)?.[1]);

describe("a strip", () => {
  it("draws estimate, interval and criterion where they belong", () => {
    const drawn = strip(0.9, 0.94, 0.97, { criterion: 0.95, direction: "at_least", verdict: "undecided" });
    expect(attribute(drawn, "rect", "x")).toBeCloseTo(at(0.9), 1);
    expect(attribute(drawn, "rect", "width")).toBeCloseTo(at(0.97) - at(0.9), 1);
    expect(attribute(drawn, "circle", "cx")).toBeCloseTo(at(0.94), 1);
    const criterion = /class="fig-criterion" d="M[\d.]+ 3H([\d.]+)V/.exec(drawn)?.[1];
    expect(Number(criterion)).toBeCloseTo(at(0.95), 1);
  });

  it("points the criterion's flag to the side that was asked for", () => {
    const flag = (direction: string) =>
      /class="fig-criterion" d="M([\d.]+) 3H([\d.]+)V/.exec(
        strip(0.9, 0.94, 0.97, { criterion: 0.95, direction }),
      );
    const [, up, upAt] = flag("at_least") ?? [];
    const [, down, downAt] = flag("at_most") ?? [];
    expect(Number(up)).toBeGreaterThan(Number(upAt));
    expect(Number(down)).toBeLessThan(Number(downAt));
  });

  it("lets the dot give way where the interval is shorter", () => {
    const share = (pixels: number) => (pixels / 210) * 0.15;
    const wide = strip(0.9, 0.9 + share(5), 0.9 + share(DOT_GIVES_WAY + 0.1));
    const narrow = strip(0.9, 0.9 + share(5), 0.9 + share(DOT_GIVES_WAY - 0.1));
    expect(wide).toContain("<circle");
    expect(narrow).not.toContain("<circle");
    expect(narrow).toContain("fig-estimate-tick");
    expect(attribute(narrow, "rect", "width")).toBeLessThan(DOT_GIVES_WAY);
  });

  it("shows the narrowest interval with one pixel, inside the scale", () => {
    const drawn = strip(0.999998, 0.999999, 1);
    expect(attribute(drawn, "rect", "width")).toBe(1);
    expect(attribute(drawn, "rect", "x") + 1).toBeLessThanOrEqual(WIDTH);
  });

  it("marks with arrows what runs out of the scale or has no limit", () => {
    expect(strip(0.5, 0.9, 0.95).match(/fig-arrow/g)).toHaveLength(1);
    expect(strip(null, 0.9, 0.95).match(/fig-arrow/g)).toHaveLength(1);
    expect(strip(0.5, 0.6, 0.7)).not.toContain("<circle");
    expect(strip(0.9, 0.94, 0.97)).not.toContain("fig-arrow");
  });

  it("draws no mark where there is no estimate, and says so", () => {
    const drawn = strip(null, null, null, { criterion: 0.95, verdict: "not_estimable" });
    expect(drawn).not.toMatch(/<circle|<rect|fig-arrow/);
    expect(drawn).toContain("fig-nothing");
    expect(drawn).toContain("<title>not estimable: no people, criterion at least 95\u202f%</title>");
  });

  it("is named in words, with estimate, interval, criterion and verdict", () => {
    const drawn = strip(0.938, 0.9823, 0.998, {
      criterion: 0.95,
      direction: "at_least",
      verdict: "undecided",
    });
    expect(drawn).toContain('role="img"');
    expect(drawn).toContain(
      "estimate 98.2\u202f% (93.8\u00a0–\u00a099.8), criterion at least 95\u202f%, undecided",
    );
  });

  it.each(["met", "not_met", "undecided"])("has a look of its own when %s", (verdict) => {
    expect(strip(0.9, 0.94, 0.97, { verdict })).toContain(`fig-${verdict.replace("_", "-")}"`);
  });
});

describe("a strip's scale", () => {
  it("puts each label at its share", () => {
    const drawn = renderToString(<StripScale domain={DOMAIN} width={WIDTH} />);
    const labels = [...drawn.matchAll(/<text[^>]* x="([\d.]+)"[^>]*>(\d+)<\/text>/g)];
    expect(labels.map((label) => label[2])).toEqual(["85", "90", "95", "100"]);
    for (const [, x, percent] of labels) expect(Number(x)).toBeCloseTo(at(Number(percent) / 100), 1);
  });

  it("has at least two labels whatever the domain", () => {
    for (const lower of [0, 0.2, 0.5, 0.7, 0.85, 0.9, 0.95, 0.98, 0.99]) {
      for (const width of [60, 120, 230])
        expect(stripTicks([lower, 1], width).length).toBeGreaterThanOrEqual(2);
    }
  });
});

describe("stripDomain", () => {
  const estimate = (lower: number, value: number) => ({ lower, value, upper: 1 });

  it("holds every estimate, limit and criterion, and ends at 100 %", () => {
    for (const lowest of [0.21, 0.333, 0.52, 0.69, 0.861, 0.938, 0.9931]) {
      const [from, to] = stripDomain([estimate(lowest, 0.995), estimate(0.995, 0.999)], [0.9935]);
      expect(from).toBeLessThan(lowest);
      expect(to).toBe(1);
    }
    expect(stripDomain([estimate(0.98, 0.99)], [0.9])[0]).toBeLessThan(0.9);
  });

  it("begins at 0 for measures that should be low", () => {
    expect(stripDomain([{ lower: 0.0053, value: 0.0095, upper: 0.0156 }], [0.05], "be_low")).toEqual([
      0, 0.1,
    ]);
  });

  it("passes over what has no estimate", () => {
    const missing = { lower: null, value: null, upper: null };
    expect(stripDomain([missing])).toEqual([0, 1]);
    expect(stripDomain([missing, estimate(0.93, 0.97)])).toEqual([0.9, 1]);
  });
});
