import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ownFolder, run } from "../cli/in-process.ts";
import { benchForTests, entriesOf, openFolder, ROOT, reportStands, saved, show } from "./opened.ts";

/**
 * What the page saves is what the command line writes: `reports/` holds the command line's files (another test
 * compares them with what it writes today), and where there is no example report it is run here.
 */
const bench = benchForTests();
const out = ownFolder();

/** All files of a folder below its name, by their name in it. */
function filesIn(folder: string): Record<string, Buffer> {
  return Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name))]));
}

describe("what the page saves", () => {
  it("is, for the demonstration, the files of its example report, and the study is the package's", async () => {
    const { page, requests, complaints } = await bench.open();
    await page.getByRole("button", { name: "Open the demonstration" }).click();
    await reportStands(page);
    await show(page, "Save");
    const example = join(ROOT, "reports/demo");
    expect((await saved(page, "Save the report")).equals(readFileSync(join(example, "report.html")))).toBe(
      true,
    );
    const evaluation = await saved(page, "Save the evaluation");
    expect(evaluation.equals(readFileSync(join(example, "evaluation.json")))).toBe(true);
    expect(entriesOf(await saved(page, "Save the tables"))).toEqual(filesIn(join(example, "tables")));
    const charts = entriesOf(await saved(page, "Save all charts"));
    const specifications = Object.entries(charts).filter(([name]) => name.endsWith(".vl.json"));
    expect(Object.fromEntries(specifications)).toEqual(filesIn(join(example, "figures")));
    const { "truth.json": _truth, ...study } = filesIn(join(ROOT, "data/demo"));
    expect(entriesOf(await saved(page, "Save the study"))).toEqual(study);
    expect(complaints).toEqual([]);
    expect(requests.filter((url) => !url.startsWith("blob:") && !url.endsWith("workbench.html"))).toEqual([]);
  }, 180_000);

  it.each([
    ["results, of real data", "data/results-nwtco", "reports/nwtco/report.html"],
    ["two kits compared", "data/two-kits-nodal", "reports/two-kits/report.html"],
  ])("is the example report for %s", async (_shape, folder, example) => {
    const { page, complaints } = await bench.open();
    await openFolder(page, folder);
    await reportStands(page);
    await show(page, "Save");
    expect((await saved(page, "Save the report")).equals(readFileSync(join(ROOT, example)))).toBe(true);
    expect(complaints).toEqual([]);
  });

  it.each(["data/counts", "data/wide"])("is what the command line writes for %s", async (folder) => {
    const { page, complaints } = await bench.open();
    await openFolder(page, folder);
    await reportStands(page);
    await show(page, "Save");
    const place = join(out, folder.replace("/", "-"));
    expect((await run(["report", join(ROOT, folder), "--out", place], ROOT)).code).toBe(0);
    const written = readFileSync(join(place, "report.html"));
    expect((await saved(page, "Save the report")).equals(written)).toBe(true);
    expect(complaints).toEqual([]);
  });

  it("is the same where jobs must run in the page, since no worker starts", async () => {
    const { page, complaints } = await bench.open({ before: "delete globalThis.Worker" });
    await openFolder(page, "data/counts");
    await reportStands(page);
    await show(page, "Save");
    const written = readFileSync(join(out, "data-counts", "report.html"));
    expect((await saved(page, "Save the report")).equals(written)).toBe(true);
    expect(complaints).toEqual([]);
  });

  it("charts are drawings and pictures too", async () => {
    const { page } = await bench.open();
    await openFolder(page, "data/results-nwtco");
    await reportStands(page);
    await show(page, "Save");
    const charts = entriesOf(await saved(page, "Save all charts"));
    const drawn =
      Object.entries(charts)
        .find(([name]) => name.endsWith(".svg"))?.[1]
        .toString() ?? "";
    // The example report holds the same drawing.
    expect(readFileSync(join(ROOT, "reports/nwtco/report.html"), "utf8")).toContain(drawn);
    const picture = Object.entries(charts).find(([name]) => name.endsWith(".png"))?.[1] ?? Buffer.alloc(0);
    // PNG (ISO/IEC 15948), section 5.2: the signature; 11.2.2: width and height in the first chunk.
    expect([...picture.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    const width = Number(/ width="([\d.]+)"/.exec(drawn)?.[1]);
    expect(picture.readUInt32BE(16)).toBe(Math.round(width) * 2);
  });
});
