import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { violations } from "../browser/visit.ts";
import { benchForTests, openFolder, ROOT, reportStands, show } from "./opened.ts";

const bench = benchForTests();

const headline = (page: Page) => page.locator(".view-report .answers").textContent();
const kept = (page: Page) => page.evaluate("localStorage.length");

/** Fills the blank table, and makes the two choices that have no default. */
async function typeCounts(page: Page, counts: readonly [number, number, number, number]): Promise<void> {
  const names = ["true positives", "false positives", "false negatives", "true negatives"];
  for (const [place, name] of names.entries()) {
    await page.getByLabel(name, { exact: true }).fill(String(counts[place]));
  }
  await page.getByLabel("The reference is").selectOption("reference_standard");
  await page.getByLabel("People came in as").selectOption("consecutive");
  await page.getByLabel("Sensitivity at least, %").fill("70");
  await page.getByRole("button", { name: "Evaluate these counts" }).click();
}

describe("a table typed by hand", () => {
  it("gives the report of its counts, and can be undone, redone, brought back and wiped", async () => {
    const { page, complaints } = await bench.open();
    // FDA, Statistical Guidance on Reporting Results from Studies Evaluating Diagnostic Tests (2007), 44 of 51
    // and 168 of 169 (cited from memory); exact limits: R 4.2.2, binom.test(44, 51) and binom.test(168, 169).
    await typeCounts(page, [44, 1, 7, 168]);
    await reportStands(page);
    expect(await headline(page)).toMatch(/44\s\/\s51[\s\S]*86\.3\s*73\.7\s–\s94\.3[\s\S]*met/);
    const accuracy = await page.locator(".view-report #accuracy").textContent();
    expect(accuracy).toMatch(/168\s\/\s169/);
    await page.keyboard.press("Control+z");
    expect(await page.getByRole("heading", { level: 1 }).textContent()).not.toContain("fourfold table");
    await page.keyboard.press("Control+Shift+Z");
    await reportStands(page);
    await page.reload();
    await reportStands(page);
    expect(await headline(page)).toMatch(/44\s\/\s51/);
    await page.getByRole("button", { name: "Wipe" }).click();
    await page.getByRole("button", { name: "Yes, wipe" }).click();
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain("Open a study");
    expect(await kept(page)).toBe(0);
    expect(complaints).toEqual([]);
  });

  it("does not begin without what must be said", async () => {
    const { page } = await bench.open();
    await page.getByLabel("true positives", { exact: true }).fill("3");
    await page.getByRole("button", { name: "Evaluate these counts" }).click();
    expect(await page.locator(".view-report #answer").count()).toBe(0);
    expect(
      await page
        .getByLabel("false positives", { exact: true })
        .evaluate((input) => input.matches(":invalid")),
    ).toBe(true);
  });
});

describe("files", () => {
  const file = (name: string, text: string) => ({ name, mimeType: "", buffer: Buffer.from(text) });

  it("that are dropped anywhere on the page open as a study", async () => {
    const { page } = await bench.open();
    const names = ["study.yaml", "kit.yaml", "counts.csv"];
    const files = names.map((name) => [name, readFileSync(join(ROOT, "data/counts", name), "utf8")]);
    await page.evaluate((given) => {
      const dataTransfer = new DataTransfer();
      for (const [name, text] of given) dataTransfer.items.add(new File([text as string], name as string));
      const told = { dataTransfer, bubbles: true, cancelable: true };
      for (const kind of ["dragover", "drop"]) document.body.dispatchEvent(new DragEvent(kind, told));
    }, files);
    await reportStands(page);
    expect(await headline(page)).toContain("HBsAg");
  });

  it("that hold no records are refused by name, and a broken archive too", async () => {
    const { page } = await bench.open();
    await page
      .locator(".view-study")
      .getByLabel("Choose files")
      .setInputFiles([file("photo.png", "x")]);
    await page.getByRole("alert").getByText("photo.png").waitFor();
    await page
      .locator(".view-study")
      .getByLabel("Choose files")
      .setInputFiles([file("study.zip", "no archive")]);
    await page.getByText("This is no ZIP archive").waitFor();
  });

  it("that are missing or faulty are named, and the study opens when they are added", async () => {
    const { page } = await bench.open();
    const read = (name: string) => readFileSync(join(ROOT, "data/counts", name), "utf8");
    const study = [file("study.yaml", read("study.yaml")), file("kit.yaml", read("kit.yaml"))];
    await page.locator(".view-study").getByLabel("Choose files").setInputFiles(study);
    await page.getByRole("heading", { name: "This study can't be read yet" }).waitFor();
    expect(await page.locator(".issues").textContent()).toContain("counts.csv");
    await page.getByLabel("Add or replace files").setInputFiles([file("counts.csv", read("counts.csv"))]);
    await page.getByText("No fault was found").waitFor();
    await show(page, "Report");
    await reportStands(page);
    const before = await headline(page);
    await show(page, "Study");
    await page.getByRole("button", { name: "Remove counts.csv" }).click();
    await page.getByRole("heading", { name: "This study can't be read yet" }).waitFor();
    await show(page, "Report");
    expect(await page.locator(".earlier").textContent()).toContain("can't be read");
    expect(await headline(page)).toBe(before);
  });
});

describe("work that takes long", () => {
  it("can be stopped, and taken up again", async () => {
    const { page } = await bench.open();
    await page.getByRole("button", { name: "Open the demonstration" }).click();
    await page.getByText("Reading the files").waitFor({ timeout: 60_000 });
    await page.getByRole("button", { name: "Stop" }).click();
    expect(await page.locator(".task progress").count()).toBe(0);
    await page.getByRole("button", { name: "Compute again" }).click();
    await reportStands(page);
  }, 120_000);
});

describe("the page", () => {
  it("shows the words of the saved report, live", async () => {
    const { page } = await bench.open();
    await openFolder(page, "data/two-kits-nodal");
    await reportStands(page);
    const saved = await page.context().newPage();
    await saved.setContent(readFileSync(join(ROOT, "reports/two-kits/report.html"), "utf8"));
    const text = (main: Element) => main.textContent;
    const live = await page.locator(".view-report main").evaluate(text);
    expect(live).toContain("53 people");
    expect(live).toBe(await saved.locator("main").evaluate(text));
  });

  it.each([
    ["light, wide", { viewport: { width: 1280, height: 900 } }],
    ["dark, narrow", { viewport: { width: 400, height: 800 }, colorScheme: "dark" as const }],
    // 1280 pixels at 400 % (WCAG 2.2, success criterion 1.4.10).
    ["as narrow as reflow asks", { viewport: { width: 320, height: 640 } }],
  ])("has no fault that axe-core finds and does not scroll sideways: %s", async (_name, options) => {
    const { page } = await bench.open(options);
    const check = async () => {
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
    };
    await check();
    await openFolder(page, "data/two-kits-nodal");
    await reportStands(page);
    await check();
    for (const part of ["Study", "Save"]) {
      await show(page, part);
      await check();
    }
  });

  it("can't reach anything, asked from within", async () => {
    const { page } = await bench.open({ offline: false });
    const tried = await page.evaluate("fetch('https://example.org/').then(() => 'reached', () => 'refused')");
    expect(tried).toBe("refused");
    // The policy refuses it, not the missing network.
    expect(bench.text()).toMatch(/connect-src &#39;none&#39;|connect-src 'none'/);
  });

  it("is no larger than 1.6 MB", () => {
    expect(bench.text().length).toBeLessThanOrEqual(1.6e6);
  });

  it("says the same before and after it comes to life", async () => {
    const { page } = await bench.open();
    const first = await page.context().newPage();
    await first.setContent(bench.text().replace(/<script>[\s\S]*<\/script>/, ""));
    const text = (place: Element) => place.textContent;
    const markup = await first.locator("#workbench").evaluate(text);
    expect(markup).toContain("Open a study");
    expect(await page.locator("#workbench").evaluate(text)).toBe(markup);
  });
});
