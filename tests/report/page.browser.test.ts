import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium } from "../browser/chromium.ts";
import { violations, visit } from "../browser/visit.ts";
import { reportOf } from "./html.ts";
import { referenceEvaluation } from "./reference-sample.ts";
import {
  comparatorEvaluation,
  countsEvaluation,
  emptyEvaluation,
  hostileEvaluation,
  sampleEvaluation,
  twoKitsEvaluation,
} from "./sample-evaluation.ts";

/** The page in a browser: accessible, silent, and readable at any width. */
const VARIANTS = {
  sample: () => sampleEvaluation(),
  twokits: twoKitsEvaluation,
  mixed: () => comparatorEvaluation(["hcv"]),
  counts: countsEvaluation,
  empty: emptyEvaluation,
  hostile: hostileEvaluation,
  reference: referenceEvaluation,
};

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
});

describe.each(Object.entries(VARIANTS))("the page, %s", (name, evaluation) => {
  test("has no accessibility violation, asks for nothing, runs nothing, complains of nothing", async () => {
    const { page, requests, complaints } = await visit(browser, await reportOf(name, evaluation));
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  test("never scrolls sideways as a whole", async () => {
    const { page } = await visit(browser, await reportOf(name, evaluation));
    for (const width of [320, 390, 800, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
    }
    await page.close();
  });
});

describe("other themes and sizes", () => {
  test.each([
    ["dark", 1280],
    ["light", 390],
  ] as const)("no accessibility violation, %s at %d pixels", async (colorScheme, width) => {
    const html = await reportOf("sample", VARIANTS.sample);
    const { page } = await visit(browser, html, { colorScheme, viewport: { width, height: 900 } });
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
});

describe("print", () => {
  test("shows folded diagrams, and leaves out folded data", async () => {
    const { page } = await visit(browser, await reportOf("sample", VARIANTS.sample));
    await page.emulateMedia({ media: "print" });
    const seen = (selector: string): Promise<boolean[]> =>
      page.evaluate(
        `[...document.querySelectorAll(${JSON.stringify(selector)})].map((element) => element.checkVisibility({ contentVisibilityAuto: true }))`,
      );
    await expect.poll(() => seen("details.printed svg")).toEqual([true, true]);
    expect((await seen("details.aside table")).some(Boolean)).toBe(false);
    await page.close();
  });

  test("keeps the answer on the first page, A4 and Letter, whatever fonts there are", async () => {
    const { page } = await visit(browser, await reportOf("sample", VARIANTS.sample));
    await page.emulateMedia({ media: "print" });
    // Room on the first page in CSS pixels: page less the margins of the style sheet (10 and 14 mm, 16 mm aside).
    for (const [width, height] of [
      [210, 297],
      [215.9, 279.4],
    ] as const) {
      const pixels = (millimetres: number) => Math.floor((millimetres / 25.4) * 96);
      await page.setViewportSize({ width: pixels(width - 32), height: pixels(height - 24) });
      const bottom = await page.evaluate("document.getElementById('answer').getBoundingClientRect().bottom");
      expect(bottom).toBeLessThanOrEqual(pixels(height - 24));
    }
    await page.close();
  });
});
