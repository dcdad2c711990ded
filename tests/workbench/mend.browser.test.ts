import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { violations } from "../browser/visit.ts";
import { benchForTests, openFolder, ROOT, reportStands, show } from "./opened.ts";

const bench = benchForTests();

const file = (name: string, text: string) => ({ name, mimeType: "", buffer: Buffer.from(text) });
const read = (name: string) => readFileSync(join(ROOT, name), "utf8");

/** The text of a file as the page has it. */
async function textOf(page: Page, name: string): Promise<string> {
  const folded = page.locator(".file-text:not([open]) > summary", { hasText: `${name} as text` });
  if ((await folded.count()) > 0) await folded.click();
  return page.getByLabel(`${name} as text`).inputValue();
}

describe("a study file as a form", () => {
  it("is changed in its own text, comments kept, one step for a run of typing", async () => {
    const { page, complaints } = await bench.open();
    await openFolder(page, "data/two-kits-nodal");
    await reportStands(page);
    await show(page, "Study");
    await page.getByText("study.yaml as a form").click();
    await page.locator("#form-study-yaml-interval > summary").click();
    const level = page.locator("#form-study-yaml-interval-level");
    await level.fill("");
    await level.pressSequentially("0.90", { delay: 20 });
    await level.press("Enter");
    const before = read("data/two-kits-nodal/study.yaml");
    expect(await textOf(page, "study.yaml")).toBe(before.replace("level: 0.95", "level: 0.9"));
    // Typed as it was typed, until the value is another.
    expect(await level.inputValue()).toBe("0.90");
    await show(page, "Report");
    await page.locator(".view-report #answer", { hasText: /90\s%/ }).waitFor({ timeout: 30_000 });
    await show(page, "Study");
    await level.fill("2");
    await page.getByText("Expected a level above 0.5 and below 1.").waitFor();
    expect(await level.getAttribute("aria-invalid")).toBe("true");
    await page.getByRole("button", { name: /^Undo/ }).click();
    expect(await textOf(page, "study.yaml")).toBe(before);
    expect(await level.inputValue()).toBe("0.95");
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  }, 60_000);

  it("has parts added, moved and removed by keyboard, the focus going along", async () => {
    const { page } = await bench.open();
    await openFolder(page, "data/two-kits-nodal");
    await reportStands(page);
    await show(page, "Study");
    await page.getByText("study.yaml as a form").click();
    await page.locator("#form-study-yaml-strata > summary").click();
    await page.getByRole("button", { name: "Add one: Strata" }).press("Enter");
    const focused = () => page.evaluate("document.activeElement.id");
    expect(await focused()).toBe("form-study-yaml-strata-2-id");
    expect(await textOf(page, "study.yaml")).toContain(
      '  - { id: "", title: "", column: "", planned: null }\n',
    );
    await page.getByRole("button", { name: "Remove Strata 3" }).press("Enter");
    expect(await page.evaluate("document.activeElement.textContent")).toBe("Add one");
    await page.getByRole("button", { name: "Move up: Strata 2" }).click();
    expect(await textOf(page, "study.yaml")).toMatch(/id: grade[\s\S]*id: stage/);
  }, 60_000);
});

describe("a fault in a row", () => {
  it("opens its cell, is mended there and read again, and comes back by undo", async () => {
    const { page } = await bench.open();
    const table = read("data/results-nwtco/nwtco.csv")
      .replace("\n2,1,1,2,3\n", "\n2,x,1,2,3\n")
      .replace("\n4,2,1,4,3\n", "\n4,2,1,4\n");
    await page
      .locator(".view-study")
      .getByLabel("Choose files")
      .setInputFiles([
        file("study.yaml", read("data/results-nwtco/study.yaml")),
        file("kit.yaml", read("data/results-nwtco/kit.yaml")),
        file("nwtco.csv", table),
      ]);
    await reportStands(page);
    await show(page, "Study");
    await page.getByRole("button", { name: "Show the row: nwtco.csv, row 3, instit" }).press("Enter");
    const cell = page.getByLabel("instit, row 3");
    expect(await cell.evaluate((input) => input === document.activeElement)).toBe(true);
    expect(await cell.inputValue()).toBe("x");
    expect(await violations(page)).toEqual([]);
    await cell.fill("1");
    await cell.press("Enter");
    await page.getByText("No fault is found in this row now.").waitFor({ timeout: 30_000 });
    await page.getByRole("button", { name: "Close the row" }).click();
    await page.getByRole("button", { name: "Show the row: nwtco.csv, row 5" }).click();
    const line = page.getByLabel("Text of row 5");
    expect(await line.inputValue()).toBe("4,2,1,4");
    await line.fill("4,2,1,4,3");
    await line.press("Enter");
    await page.getByText("No fault was found in these files.").waitFor({ timeout: 30_000 });
    await page.getByRole("button", { name: "Undo: edit nwtco.csv, row 5" }).click();
    await page.getByRole("button", { name: "Show the row: nwtco.csv, row 5" }).waitFor({ timeout: 30_000 });
  }, 90_000);
});

describe("a table without a study file", () => {
  it.each([
    ["wide", {}],
    ["dark, narrow", { viewport: { width: 400, height: 800 }, colorScheme: "dark" as const }],
  ])(
    "becomes a study by pointing: %s",
    async (_, options) => {
      const { page, complaints } = await bench.open(options);
      await page
        .locator(".view-study")
        .getByLabel("Choose files")
        .setInputFiles([file("nwtco.csv", read("data/results-nwtco/nwtco.csv"))]);
      await page.getByLabel("instit is").selectOption("rapid");
      await page.getByLabel("histol is").selectOption("reference");
      const codes = page.locator(".view-study section", { hasText: "The codes in" });
      const code = (of: string, text: string) =>
        codes.filter({ hasText: of }).getByLabel(new RegExp(`^${text} \\(`));
      await code("instit", "2").selectOption("reactive");
      await code("instit", "1").selectOption("nonreactive");
      await code("histol", "2").selectOption("positive");
      await code("histol", "1").selectOption("negative");
      await page.getByRole("button", { name: "Make the study" }).click();
      await page.getByRole("alert").getByText("13 fields of what the table doesn't say").waitFor();
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
      const field = (name: string) => page.locator(`#about-table-${name}`);
      for (const name of ["kit", "condition", "specimen", "reference", "discrepancies"])
        await field(name).fill(name);
      await field("max_attempts").fill("1");
      await field("interval-level").fill("0.95");
      const choices = [
        ["role", "reference standard"],
        ["selection", "convenience"],
        ["invalid", "set aside"],
        ["repeat", "first"],
        ["outside_window", "keep"],
        ["interval-method", "Clopper and Pearson"],
      ] as const;
      for (const [name, label] of choices) await field(name).selectOption({ label });
      await page.getByRole("button", { name: "Make the study" }).click();
      await reportStands(page);
      // The cells of the table, counted plainly over the rows of the file.
      const rows = read("data/results-nwtco/nwtco.csv")
        .trim()
        .split("\n")
        .slice(1)
        .map((row) => row.split(","));
      const positives = rows.filter((row) => row[2] === "2");
      const found = positives.filter((row) => row[1] === "2").length;
      const accuracy = await page.locator(".view-report #accuracy").textContent();
      expect(accuracy?.replace(/\s/g, " ")).toContain(`${found} / ${positives.length}`);
      await show(page, "Study");
      await page.getByText("study.yaml as a form").click();
      expect(await textOf(page, "study.yaml")).toContain("status: draft");
      expect(complaints).toEqual([]);
    },
    90_000,
  );
});
