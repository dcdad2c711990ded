import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { textWidth, wrapText } from "../../src/figures/measure-text.ts";

/**
 * Widths in units of the font size, measured with Pillow 9.4.0 (`ImageFont.getlength` at 1,000
 * pixels): DejaVu Sans 2.37, Liberation Sans 2.1, then the bold face of each.
 */
const MEASURED: [string, number, number, number, number][] = [
  ["Reference indeterminate", 12.422, 10.951, 14.09, 11.671],
  ["Blood-exposure clinic, 2 %", 13.203, 11.784, 14.862, 12.725],
  ["1,204,511", 5.089, 4.449, 5.63, 4.449],
  ["WWW iiii", 4.395, 3.998, 5.028, 4.221],
  ["Mavenfold Liver Clinic, with the day ward", 20.648, 18.119, 23.376, 19.559],
  ["eia 1 duplicate", 7.407, 6.449, 8.341, 6.892],
  ["Ünïcode façade", 7.751, 7.005, 8.66, 7.391],
];

describe("textWidth", () => {
  it.each(MEASURED)(
    "is never below and not far above two real fonts: %s",
    (text, dejavu, liberation, ...bold) => {
      const plain = textWidth(text, 1);
      expect(plain).toBeGreaterThanOrEqual(Math.max(dejavu, liberation) * 0.995);
      expect(plain).toBeLessThanOrEqual(Math.max(dejavu, liberation) * 1.08);
      const heavy = textWidth(text, 1, "bold");
      expect(heavy).toBeGreaterThanOrEqual(Math.max(...bold) * 0.97);
      expect(heavy).toBeLessThanOrEqual(Math.max(...bold) * 1.08);
    },
  );

  it("grows with the font size and is 0 for nothing", () => {
    expect(textWidth("kit", 24)).toBeCloseTo(2 * textWidth("kit", 12), 10);
    expect(textWidth("", 12)).toBe(0);
  });

  it("takes square scripts as a full square", () => {
    expect(textWidth("検査", 12)).toBe(24);
  });
});

const words = fc.array(
  fc.string({ minLength: 1, maxLength: 12 }).map((word) => word.replace(/\s/g, "x")),
  { maxLength: 12 },
);

describe("wrapText", () => {
  it("loses no sign and makes no line wider than asked, except a single sign", () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 8, max: 200 }), (list, width) => {
        const lines = wrapText(list.join(" "), width, 12);
        expect(lines.join("").replaceAll(" ", "")).toBe(list.join(""));
        for (const line of lines) {
          expect(textWidth(line, 12) <= width || [...line].length === 1).toBe(true);
        }
      }),
    );
  });

  it("breaks at spaces where it can, and holds no-break spaces", () => {
    expect(wrapText("reference not done", 80, 12)).toEqual(["reference", "not done"]);
    expect(wrapText("prevalence 4.5\u00a0%", 75, 12)).toEqual(["prevalence", "4.5\u00a0%"]);
    expect(wrapText("  ", 80, 12)).toEqual([]);
  });
});
