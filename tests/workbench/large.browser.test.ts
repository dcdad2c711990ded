import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { benchForTests, ROOT, reportStands, saved, show } from "./opened.ts";

const bench = benchForTests();

const COPIES = 25;
const read = (name: string) => readFileSync(join(ROOT, "data/results-nwtco", name), "utf8");

/** Every person of the open data set over and over, each time under another number. */
function manyTimes(): string {
  const [header, ...rows] = read("nwtco.csv").trimEnd().split("\n");
  const copies = Array.from({ length: COPIES }, (_, copy) => rows.map((row) => `${copy + 1}-${row}`));
  return `${[header, ...copies.flat()].join("\n")}\n`;
}

describe("a table of 100,700 rows", () => {
  it("is read and evaluated in the page while it stays usable, and counts everybody", async () => {
    const { page, complaints } = await bench.open();
    const file = (name: string, text: string) => ({ name, mimeType: "", buffer: Buffer.from(text) });
    await page
      .locator(".view-study")
      .getByLabel("Choose files")
      .setInputFiles([
        file("study.yaml", read("study.yaml")),
        file("kit.yaml", read("kit.yaml")),
        file("nwtco.csv", manyTimes()),
      ]);
    // The worker computes; the page goes on answering.
    await show(page, "Methods");
    await page.getByRole("heading", { name: "Ask any method by itself" }).waitFor();
    await show(page, "Report");
    await reportStands(page);
    await show(page, "Save");
    const evaluation = JSON.parse((await saved(page, "Save the evaluation")).toString("utf8"));
    // survival::nwtco crossed in R: 330, 76, 129 and 3,493 people.
    expect(evaluation.accuracy[0].counts).toEqual({
      truePositives: 330 * COPIES,
      falsePositives: 76 * COPIES,
      falseNegatives: 129 * COPIES,
      trueNegatives: 3493 * COPIES,
    });
    expect(complaints).toEqual([]);
  }, 180_000);
});
