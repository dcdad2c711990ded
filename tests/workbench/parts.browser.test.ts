import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { findMethod } from "../../src/methods/index.ts";
import { violations } from "../browser/visit.ts";
import { ownFolder, run } from "../cli/in-process.ts";
import { benchForTests, entriesOf, ROOT, saved, show } from "./opened.ts";

const bench = benchForTests();
const out = ownFolder();

/** Five methods of different areas, whose examples are published or recomputed outside this project. */
const FIVE = [
  "proportion.interval",
  "accuracy.fourfold",
  "agreement.kappa",
  "planning.precision",
  "reference.corrected",
];

async function openMethod(page: Page, title: string): Promise<void> {
  await show(page, "Methods");
  const back = page.getByRole("button", { name: "All methods" });
  if ((await back.count()) > 0) await back.click();
  await page.locator(".method-list").getByRole("button", { name: title, exact: true }).click();
}

describe("the catalogue's methods", () => {
  it.each(FIVE)("%s gives the numbers of each of its worked examples, by one click", async (id) => {
    const method = findMethod(id);
    if (method === undefined) throw new Error(`no method ${id}`);
    const { page, complaints } = await bench.open();
    await openMethod(page, method.title);
    for (const { name, expect: stated } of method.examples) {
      await page.getByRole("button", { name: `Worked example: ${name}`, exact: true }).click();
      await page.locator(".method-form", { hasText: `“${name}”` }).waitFor();
      await page.locator(".method-state:empty").waitFor({ state: "attached", timeout: 60_000 });
      const box = page.locator(".method-expected", { has: page.getByLabel(`: ${name}`, { exact: false }) });
      const rows = box.first().locator("tbody tr");
      expect(await rows.locator("code").allTextContents()).toEqual(Object.keys(stated));
      const verdicts = await rows.locator("td:last-child").allTextContents();
      expect(verdicts).toEqual(verdicts.map(() => "agrees"));
      const numbers = await rows.locator("td:nth-child(2)").allTextContents();
      const said = Object.values(stated).map((value) => String(value).replace("-", "\u2212"));
      expect(numbers.map((text) => (text === "not to be had" ? "null" : text))).toEqual(said);
    }
    expect(complaints).toEqual([]);
  });

  it("follow a change of a field, and undo it", async () => {
    const { page } = await bench.open();
    await openMethod(page, findMethod("accuracy.fourfold")?.title ?? "");
    await page.locator(".method-begin button").first().click();
    const sensitivity = page.locator(".values tr", { hasText: "P(reactive | condition present)" }).first();
    await sensitivity.getByText("0.8953488").waitFor();
    await page.locator(".view-methods").getByLabel("True positives").fill("200");
    await page.locator(".view-methods").getByLabel("True positives").blur();
    // 200 of 200 + 27, by long division.
    await sensitivity.getByText("0.8810573").waitFor();
    expect(await page.locator(".method-form").textContent()).toContain("Not one of the worked examples");
    await page.getByRole("button", { name: "Undo" }).click();
    await sensitivity.getByText("0.8953488").waitFor();
  });

  it("can be found by words, and are usable without a pointer and by ear", async () => {
    const { page } = await bench.open();
    await show(page, "Methods");
    await page.getByLabel("Find a method").fill("kappa two readers");
    expect(await page.locator(".method-list li").count()).toBeLessThan(5);
    expect(await violations(page)).toEqual([]);
    await page.getByLabel("Find a method").fill("fourfold");
    await page.locator(".method-list button").first().press("Enter");
    expect(await page.evaluate("document.activeElement?.tagName")).toBe("H1");
    await page.locator(".method-begin button").first().press("Enter");
    await page.locator(".values").first().waitFor();
    expect(await violations(page)).toEqual([]);
  });
});

/** All files of a folder and of the folders in it, by their names. */
function filesIn(folder: string): Record<string, Buffer> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return Object.fromEntries(
    entries.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path.slice(folder.length + 1), readFileSync(path)];
    }),
  );
}

describe.each([
  ["Plan", "plan", "plan", "plan.html", ["data/plan/plan.yaml", "data/plan/kit.yaml"]],
  ["Algorithms", "algorithms", "algorithm", "algorithm.html", ["data/algorithm/algorithm.yaml"]],
] as const)("the part %s", (part, view, command, name, files) => {
  const stands = (page: Page) => page.locator(`.view-${view} .own-root #answer`).waitFor({ timeout: 60_000 });

  it("saves the files that the command line writes for the same file", async () => {
    const { page, complaints } = await bench.open();
    await show(page, part);
    await page
      .locator(`.view-${view}`)
      .getByLabel("Choose files")
      .setInputFiles(files.map((file) => join(ROOT, file)));
    await stands(page);
    const place = join(out, command);
    expect((await run([command, join(ROOT, files[0]), "--out", place], ROOT)).code).toBe(0);
    const written = filesIn(place);
    expect((await saved(page, "Save the page")).equals(written[name] as Buffer)).toBe(true);
    const archive = entriesOf(await saved(page, "Save page, tables and charts"));
    const own = files.map((file) => [file.split("/").at(-1), readFileSync(join(ROOT, file))]);
    expect(archive).toEqual({ ...written, ...Object.fromEntries(own) });
    expect(complaints).toEqual([]);
    // axe-core knows the way past the head by its standing before the first link to elsewhere; a link in a tree of
    // its own stands neither before nor after it, so that it is taken for text outside of all landmarks.
    const found = await violations(page);
    expect(found.filter((line) => !line.startsWith('region | a[href$="#page"]'))).toEqual([]);
  });

  it("edits the example as a form, says its faults, and brings it back by undo and over a reload", async () => {
    const { page, complaints } = await bench.open();
    await show(page, part);
    const here = page.locator(`.view-${view}`);
    await here.getByRole("button", { name: "Open the example" }).click();
    await stands(page);
    const heading = here.locator(".own-root h1");
    const before = await heading.textContent();
    await here.locator(".file-form > summary").first().click();
    await here.getByLabel("Title").first().fill("Another title");
    await here.locator(".own-root h1", { hasText: "Another title" }).waitFor({ timeout: 60_000 });
    await here.getByLabel("Short name").first().fill("");
    await here.locator(".draft-faults li").first().waitFor();
    expect(await here.locator(".draft-earlier").textContent()).toContain("before it had faults");
    expect(await heading.textContent()).toBe("Another title");
    await page.getByRole("button", { name: "Undo" }).click();
    await here.locator(".draft-faults").waitFor({ state: "detached" });
    await page.reload();
    await here.locator(".own-root h1", { hasText: "Another title" }).waitFor({ timeout: 60_000 });
    await page.getByRole("button", { name: "Put away" }).click();
    await here.getByRole("button", { name: "Open the example" }).waitFor();
    expect(before).not.toBe("Another title");
    expect(complaints).toEqual([]);
  });

  it("follows the page's own links to its sections", async () => {
    const { page } = await bench.open({ viewport: { width: 400, height: 800 } });
    await show(page, part);
    const here = page.locator(`.view-${view}`);
    await here.getByRole("button", { name: "Open the example" }).click();
    await stands(page);
    await here.locator(".own-root .contents a").nth(1).click();
    expect(await page.evaluate("scrollY")).toBeGreaterThan(800);
    expect(await page.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
  });
});
