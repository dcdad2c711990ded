import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import { readPooling } from "../../../src/evaluation/pool/read.ts";
import { type PoolText, poolText, tableText, workedCase } from "../../evaluation/pool/any-pool.ts";
import { fill, ownFolder, ROOT, run } from "../in-process.ts";

const folder = ownFolder();
const read = (...parts: string[]) => readFile(join(folder, ...parts), "utf8");
const SIX = workedCase("G-04").rows.slice(0, 6);

async function filesIn(name: string, change: PoolText = {}, table = tableText(SIX)): Promise<string> {
  await fill(join(folder, name), { "pool.yaml": stringify(poolText(change)), "studies.csv": table });
  return name;
}

describe("pool", () => {
  it("writes page, document, tables and charts beside the file, and says the answer in lines", async () => {
    const criteria = [{ measure: "sensitivity", at_least: 0.8, source: "made up" }];
    const table = `${tableText(workedCase("G-04").rows)}S13,1,,,30,\n`;
    const { code, out } = await run(["pool", await filesIn("plain", { criteria }, table)], folder);
    expect(code).toBe(0);
    // G-04 (R 4.2.2): 0.8497 (0.8050 to 0.8856); a new place 0.6760 to 0.9387 by qt(); 0.7713 by pt().
    expect(out).toMatch(
      /^sensitivity: 85\.0 % \(80\.5 – 88\.6\) in the middle of 12 studies; a new place 67\.6 – 93\.9 %$/m,
    );
    expect(out).toMatch(
      /^met: sensitivity, asked at least 80 %; a new place reaches it with probability 0\.77$/m,
    );
    expect(out).toMatch(/^mind: 1 of 13 rows could not be used$/m);
    expect(out).toMatch(
      /^left out: row 14, S13, column fn: expected .*, received 2$|^left out: row 14, S13/m,
    );
    expect(out).toContain(`page: ${join("plain", "fourfold-pool", "pool.html")}`);
    const names = (await readdir(join(folder, "plain", "fourfold-pool"))).sort();
    expect(names).toEqual(["figures", "pool.html", "pooling.json", "tables"]);
    const document = readPooling(JSON.parse(await read("plain", "fourfold-pool", "pooling.json")));
    expect(document.provenance.inputs.map(({ name }) => name)).toEqual(["pool.yaml", "studies.csv"]);
    expect(await read("plain", "fourfold-pool", "tables", "studies.csv")).toContain("S1,,45,6,5,94,0.9,");
    for (const name of await readdir(join(folder, "plain", "fourfold-pool", "figures"))) {
      expect(name).toMatch(/\.vl\.json$/);
    }
  }, 20_000);

  it("writes where asked, the same bytes again, and the answer as JSON", async () => {
    await filesIn("again");
    const first = await run(["pool", join("again", "pool.yaml"), "--out", "out-again", "--json"], folder);
    const page = await read("out-again", "pool.html");
    const second = await run(["pool", "again", "--out", "out-again", "--json"], folder);
    expect([first.code, second.code]).toEqual([0, 0]);
    expect(await read("out-again", "pool.html")).toBe(page);
    const answer = JSON.parse(first.out);
    expect(answer).toMatchObject({ page: join("out-again", "pool.html"), answer: { basis: "bivariate" } });
    expect(page).not.toContain(folder);
  }, 20_000);

  it.each<[string, string[], 1 | 2, RegExp]>([
    ["no such file", ["pool", "nowhere.yaml"], 2, /no such file: nowhere\.yaml/],
    ["no pooling file in the folder", ["pool", "empty"], 1, /no pool\.yaml in/],
    [
      "a file with faults, each with its line",
      ["pool", "faulty"],
      1,
      /row \d+, column level: expected a level/,
    ],
    ["a table that is not there", ["pool", "tableless"], 1, /other\.csv: expected this file/],
    ["a table without a study to use", ["pool", "bare"], 1, /row 2, column tp: expected counts/],
    [
      "a place that holds something else",
      ["pool", "sound", "--out", "foreign"],
      2,
      /foreign: holds precious\.txt/,
    ],
  ])("refuses %s", async (_, words, code, message) => {
    await fill(join(folder, "empty"), { "other.txt": "x" });
    await fill(join(folder, "foreign"), { "precious.txt": "x" });
    await filesIn("faulty", { level: 95 });
    await filesIn("tableless", { table: "other.csv" });
    await filesIn("bare", {}, "study,tp,fp,fn,tn\nA,,,,\n");
    await filesIn("sound");
    const ran = await run(words, folder);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(message);
    expect(await read("foreign", "precious.txt")).toBe("x");
  });
});

describe("start --pool", () => {
  it("makes a file and a table that can be pooled as they stand", async () => {
    const made = await run(["start", "mine", "--pool"], folder);
    expect(made.code).toBe(0);
    expect(made.out).toContain("fourfold pool mine");
    const { code, out } = await run(["pool", "mine", "--json"], folder);
    expect(code).toBe(0);
    const { answer, leftOut } = JSON.parse(out);
    expect(answer.levels.map(({ level }: { level: string }) => level)).toEqual(["venous", "fingerstick"]);
    expect(leftOut).toEqual([]);
    expect((await run(["start", "mine", "--pool"], folder)).code).toBe(2);
    expect((await run(["start", "other", "--pool", "--plan"], folder)).code).toBe(2);
    expect(await read("mine", "pool.yaml")).toBe(
      await readFile(join(ROOT, "data", "template-pool", "pool.yaml"), "utf8"),
    );
  }, 20_000);
});

describe("verify, of a page of pooled studies", () => {
  it("finds page, inputs and numbers unchanged, then the table changed, then a forged page", async () => {
    await run(["pool", await filesIn("verified")], folder);
    const page = join("verified", "fourfold-pool", "pool.html");
    const same = await run(["verify", page, "--json"], folder);
    expect(same.code).toBe(0);
    expect(same.err).toContain("pooling folder: verified");
    expect(JSON.parse(same.out)).toMatchObject({
      holds: true,
      page: "same",
      inputs: [
        { file: "pool.yaml", state: "unchanged" },
        { file: "studies.csv", state: "unchanged" },
      ],
      numbers: [],
    });
    await filesIn("verified", {}, tableText([[44, 6, 6, 94], ...SIX.slice(1)]));
    const changed = await run(["verify", page], folder);
    expect(changed.code).toBe(1);
    expect(changed.out).toContain("studies.csv: changed");
    expect(changed.out).toContain("answer.sensitivity.together.count: 329 in the report, 328 now");
    const whole = await read("verified", "fourfold-pool", "pool.html");
    const forged = async (text: string) => {
      await writeFile(join(folder, "forged.html"), text);
      return run(["verify", "forged.html"], folder);
    };
    const words = await forged(whole.replace("How well does it do?", "How very well does it do?"));
    expect(words.code).toBe(1);
    expect(words.out).toContain("the page is NOT what its numbers give");
    const broken = await forged(whole.replace('"format":"fourfold-pooling"', '"format":"fourfold-other"'));
    expect(broken.code).toBe(1);
    expect(broken.err).toContain("not a page of pooled studies that can be read back");
  }, 30_000);
});
