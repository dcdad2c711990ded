import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium } from "../browser/chromium.ts";
import { violations, visit } from "../browser/visit.ts";
import { algorithmPageOf } from "./algorithm-sample.ts";

/** The page of testing algorithms in a browser: accessible, silent, and readable at any width. */
let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
});

describe.each(["example", "single", "hostile"])("the page of testing algorithms, %s", (name) => {
  test("has no accessibility violation, asks for nothing, runs nothing, complains of nothing", async () => {
    const { page, requests, complaints } = await visit(browser, await algorithmPageOf(name));
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  test("never scrolls sideways as a whole", async () => {
    const { page } = await visit(browser, await algorithmPageOf(name));
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
    const html = await algorithmPageOf("example");
    const { page } = await visit(browser, html, { colorScheme, viewport: { width, height: 900 } });
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
});

describe("wide tables", () => {
  test("the answer's table fits the page at 1,100 pixels", async () => {
    const { page } = await visit(browser, await algorithmPageOf("example"), {
      viewport: { width: 1100, height: 900 },
    });
    const room = await page.evaluate(
      "(() => { const table = document.querySelector('#answer .table'); return table.scrollWidth - table.clientWidth; })()",
    );
    expect(room).toBeLessThanOrEqual(0);
    await page.close();
  });
});

describe("print", () => {
  test("keeps the answer's sentences and the first channel's lines on the first page, A4 and Letter", async () => {
    const { page } = await visit(browser, await algorithmPageOf("example"));
    await page.emulateMedia({ media: "print" });
    // Room on the first page in CSS pixels: page less the margins of the style sheet (10 and 14 mm, 16 mm aside).
    for (const [width, height] of [
      [210, 297],
      [215.9, 279.4],
    ] as const) {
      const pixels = (millimetres: number) => Math.floor((millimetres / 25.4) * 96);
      await page.setViewportSize({ width: pixels(width - 32), height: pixels(height - 24) });
      const bottom = await page.evaluate(
        "document.querySelector('.answers.reckoned tbody').getBoundingClientRect().bottom",
      );
      expect(bottom).toBeLessThanOrEqual(pixels(height - 24));
    }
    await page.close();
  });
});
