import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { readEmbeddedEvaluation } from "../../src/report/embed.ts";
import { violations } from "../browser/visit.ts";
import { ownFolder, run } from "../cli/in-process.ts";
import { benchForTests, openFolder, ROOT, reportStands, saved, show } from "./opened.ts";

/** What the report and the command line say is held against what the page shows; nothing here has another source. */
const bench = benchForTests();
const out = ownFolder();

const group = (page: Page, name: string) =>
  page.locator(".explore details").filter({ has: page.locator("summary", { hasText: name }) });

async function openGroup(page: Page, name: string): Promise<void> {
  const found = group(page, name);
  if ((await found.getAttribute("open")) === null) await found.locator("summary").click();
}

/** Waits until the report has followed: it carries the mark with these words, and nothing is being computed. */
async function followed(page: Page, words: RegExp): Promise<string> {
  await page.locator("#exploration", { hasText: words }).waitFor({ timeout: 60_000 });
  await page.locator(".task progress").waitFor({ state: "detached", timeout: 60_000 });
  return (await page.locator("#exploration").textContent()) ?? "";
}

/** Changes every control once. */
async function changeEverything(page: Page): Promise<void> {
  const controls = page.locator(".explore");
  await openGroup(page, "Prevalence");
  await controls.getByLabel("Prevalence, in %").fill("12.5");
  await openGroup(page, "Criteria");
  await controls.getByLabel("Specificity, HBsAg, venous whole blood, in %").fill("99.9");
  await openGroup(page, "Interval");
  await controls.getByLabel("Method").selectOption("wilson");
  await controls.getByLabel("Level").selectOption("0.9");
  await openGroup(page, "Invalid and untimely");
  await controls.getByLabel("Invalid results are").selectOption("failure");
  await controls.getByLabel("Readings outside the window are").selectOption("set_aside");
  await controls.getByLabel("Of repeated devices").selectOption("first");
  await openGroup(page, "Some people");
  await controls.getByLabel("Look at").selectOption({ label: "Ondavell Clinic" });
  await openGroup(page, "Subgroups");
  await controls.getByLabel("Site", { exact: true }).uncheck();
}

describe("controls beside the report", () => {
  it("each changes the report, which says so; back at the plan it is the command line's, byte for byte", async () => {
    const { page, complaints } = await bench.open();
    await openFolder(page, "data/wide");
    await reportStands(page);
    await changeEverything(page);
    const mark = await followed(page, /Subgroups by site/);
    for (const words of [
      /Specificity, HBsAg, venous whole blood: planned ≥.90.% → ≥.99\.9.%/,
      /Prevalence of HBsAg looked at: planned none → 12\.5.%/,
      /Interval: planned exact \(Clopper–Pearson\) → Wilson score/,
      /Level: planned 95.% → 90.%/,
      /Invalid results: planned set aside → counted as failures/,
      /Readings outside the window: planned kept as read → set aside/,
      /Repeated devices: planned the last counts → the first counts/,
      /Site: planned everybody → only Ondavell Clinic/,
      /Subgroups by site: planned shown → not shown/,
    ]) {
      expect(mark).toMatch(words);
    }
    expect(await page.locator(".explore-state").textContent()).toContain("9 choices differ");
    expect(await page.locator(".view-report .answers").textContent()).toMatch(/90.% Wilson interval/);
    expect(await page.locator(".view-report .answers").textContent()).toContain("99.9");
    await show(page, "Save");
    await page.getByText("What is saved now is an exploration").waitFor();
    const html = (await saved(page, "Save the report")).toString();
    const { exploration } = readEmbeddedEvaluation(html) as { exploration: { changes: unknown[] } };
    expect(exploration.changes).toHaveLength(9);
    const kept = join(out, "explored.html");
    writeFileSync(kept, html);
    const verified = await run(["verify", kept, "--study", join(ROOT, "data/wide")], ROOT);
    expect(verified.code, verified.out).toBe(0);
    await show(page, "Report");
    await page.getByRole("button", { name: "Back to the plan", exact: true }).click();
    await page.locator("#exploration").waitFor({ state: "detached", timeout: 60_000 });
    await show(page, "Save");
    const place = join(out, "wide");
    expect((await run(["report", join(ROOT, "data/wide"), "--out", place], ROOT)).code).toBe(0);
    expect((await saved(page, "Save the report")).equals(readFileSync(join(place, "report.html")))).toBe(
      true,
    );
    expect(complaints).toEqual([]);
  }, 180_000);

  it("a slider shows at once what follows, and the old report stays until the new one stands", async () => {
    const { page, complaints } = await bench.open();
    await openFolder(page, "data/wide");
    await reportStands(page);
    const ppv = page.locator(".live-trust dd").first();
    const before = await ppv.textContent();
    const slider = page.getByRole("slider", { name: "Prevalence" });
    await slider.focus();
    await page.keyboard.press("End");
    expect(await ppv.textContent()).not.toBe(before);
    expect(await page.locator("#answer").count()).toBe(1);
    expect(await page.locator("#exploration").count()).toBe(0);
    await followed(page, /Prevalence of HBsAg looked at: planned none → 90/);
    await page.keyboard.press("Control+z");
    await page.locator("#exploration").waitFor({ state: "detached", timeout: 60_000 });
    await openGroup(page, "Criteria");
    const verdict = page.locator(".threshold output").first();
    const [met, moved] = [await verdict.textContent(), page.getByRole("slider").first()];
    await moved.focus();
    await page.keyboard.press("End");
    expect(await verdict.textContent()).not.toBe(met);
    expect(complaints).toEqual([]);
  }, 120_000);

  it("have names, also where they stand above the page, and in the dark", async () => {
    const { page } = await bench.open({ viewport: { width: 400, height: 900 }, colorScheme: "dark" });
    await openFolder(page, "data/wide");
    await reportStands(page);
    // All groups at once: one look at the page is enough.
    await page.evaluate(
      "document.querySelectorAll('.explore details').forEach((one) => { one.removeAttribute('name'); one.open = true })",
    );
    expect(await page.locator(".explore details[open]").count()).toBe(6);
    expect(await violations(page)).toEqual([]);
    const { scroll, width } = await page.evaluate<{ scroll: number; width: number }>(
      "({ scroll: document.documentElement.scrollWidth, width: innerWidth })",
    );
    expect(scroll).toBeLessThanOrEqual(width);
  }, 120_000);
});
