import { describe, expect, it } from "vitest";
import { DARK_INKS, type Inks, LIGHT_INKS } from "../../src/figures/inks.ts";

/**
 * Relative luminance and contrast ratio as WCAG 2.2 defines them (W3C Recommendation, "relative
 * luminance" and "contrast ratio"); 4.5 : 1 for words is its criterion 1.4.3, 3 : 1 for graphical
 * objects its criterion 1.4.11.
 */
function luminance(color: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [low = 0, high = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

const themes: [string, Inks][] = [
  ["light", LIGHT_INKS],
  ["dark", DARK_INKS],
];

describe.each(themes)("the %s inks", (_, inks) => {
  it("contrast: black on white is 21 to 1", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
  });

  it.each(["ink", "muted", "deep", "amber"] as const)("%s can be read as words on paper and wash", (name) => {
    expect(contrast(inks[name], inks.paper)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(inks[name], inks.wash)).toBeGreaterThanOrEqual(4.5);
  });

  it("ink can be read on the pale band", () => {
    expect(contrast(inks.ink, inks.pale)).toBeGreaterThanOrEqual(4.5);
  });

  it("areas of false and true results stand out from paper and, in grey, from each other", () => {
    expect(contrast(inks.ochre, inks.paper)).toBeGreaterThanOrEqual(3);
    expect(contrast(inks.deep, inks.paper)).toBeGreaterThanOrEqual(3);
    expect(contrast(inks.deep, inks.ochre)).toBeGreaterThanOrEqual(3);
  });

  it("the band and its line differ", () => {
    expect(contrast(inks.deep, inks.pale)).toBeGreaterThanOrEqual(3);
  });

  it("no two inks are one", () => {
    expect(new Set(Object.values(inks)).size).toBe(Object.keys(inks).length);
  });
});

it("both themes name the same inks", () => {
  expect(Object.keys(DARK_INKS)).toEqual(Object.keys(LIGHT_INKS));
});
