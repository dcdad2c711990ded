import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium } from "../browser/chromium.ts";
import { violations, visit } from "../browser/visit.ts";
import { poolPageOf } from "./pool-sample.ts";

/** The page of pooled studies in a browser: accessible, silent, and readable at any width. */
let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
});

describe.each(["example", "template", "single", "hostile"])("the page of pooled studies, %s", (name) => {
  test("has no accessibility violation, asks for nothing, runs nothing, complains of nothing", async () => {
    const { page, requests, complaints } = await visit(browser, await poolPageOf(name));
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  test("never scrolls sideways as a whole", async () => {
    const { page } = await visit(browser, await poolPageOf(name));
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
    const html = await poolPageOf("example");
    const { page } = await visit(browser, html, { colorScheme, viewport: { width, height: 900 } });
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
});

describe("wide tables", () => {
  test.each(["#answer .table", "#studies .drawing"])("%s fits the page at 1,100 pixels", async (selector) => {
    const { page } = await visit(browser, await poolPageOf("example"), {
      viewport: { width: 1100, height: 900 },
    });
    const room = await page.evaluate(
      `(() => { const table = document.querySelector("${selector}"); return table.scrollWidth - table.clientWidth; })()`,
    );
    expect(room).toBeLessThanOrEqual(0);
    await page.close();
  });
});
