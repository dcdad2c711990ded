import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { evaluationJsonSchema } from "../../src/evaluation/json-schema.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { fill, ownFolder, run } from "./in-process.ts";
import { RESULTS, SMALL_STUDY, STUDY } from "./small-study.ts";

const folder = ownFolder();

async function study(name: string, files: Readonly<Record<string, string>> = SMALL_STUDY): Promise<string> {
  await fill(join(folder, name), files);
  return name;
}

const read = (...parts: string[]) => readFile(join(folder, ...parts), "utf8");

async function filesBelow(name: string): Promise<Record<string, string>> {
  const entries = await readdir(join(folder, name), { recursive: true, withFileTypes: true });
  const found: Record<string, string> = {};
  for (const entry of entries.filter((one) => one.isFile())) {
    const path = join(entry.parentPath, entry.name);
    found[path.slice(folder.length + name.length + 2)] = await readFile(path, "utf8");
  }
  return found;
}

describe("report", () => {
  it("writes page, document, tables and charts into the study folder, and prints the answer", async () => {
    const { code, out, err } = await run(["report", await study("plain")], folder);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^undecided +Analyte one, Serum: sensitivity 8 \/ 9 = 88\.9 % \(51\.8 – 99\.7\), asked at least 95 %$/m,
    );
    expect(out).toContain(join("plain", "fourfold-report", "report.html"));
    // The criterion of this study bears no date: that belongs beside the answer.
    expect(out).toMatch(/^careful: .*no date/m);
    expect(err).toContain("reading 3 files");
    const files = await filesBelow(join("plain", "fourfold-report"));
    expect(Object.keys(files)).toEqual(
      expect.arrayContaining([
        "report.html",
        "evaluation.json",
        "tables/accuracy.csv",
        "tables/discordant.csv",
      ]),
    );
    expect(Object.keys(files).some((name) => /^figures\/.+\.vl\.json$/.test(name))).toBe(true);
  });

  it("gives the same bytes twice, over an earlier report or beside it", async () => {
    await run(["report", await study("twice")], folder);
    const first = await filesBelow(join("twice", "fourfold-report"));
    await run(["report", "twice"], folder);
    await run(["report", "twice", "--out", "elsewhere"], folder);
    expect(await filesBelow(join("twice", "fourfold-report"))).toEqual(first);
    expect(await filesBelow("elsewhere")).toEqual(first);
  });

  it("writes a document that fits the published schema and can be read back", async () => {
    await run(["report", await study("schema")], folder);
    const document = JSON.parse(await read("schema", "fourfold-report", "evaluation.json"));
    const fits = new Ajv({ strict: false, allErrors: true, formats: { date: true } }).compile(
      evaluationJsonSchema() as object,
    );
    fits(document);
    expect(fits.errors ?? []).toEqual([]);
    expect(readEvaluation(document).accuracy[0]?.sensitivity.count).toBe(8);
  });

  it("lets no study code become a formula in a table", async () => {
    await run(["report", await study("formulas")], folder);
    const table = await read("formulas", "fourfold-report", "tables", "discordant.csv");
    expect(table).toContain("'=1+2");
    expect(table).toContain("'@SUM(A1)");
    expect(table).not.toMatch(/(^|[,\n"])[=@]/);
  });

  it("prints the answers as JSON when asked", async () => {
    const { out } = await run(["report", await study("json"), "--json"], folder);
    expect(JSON.parse(out).answers[0]).toMatchObject({ criterion: "se", verdict: "undecided" });
  });

  it("speaks of agreement where there is only a comparator", async () => {
    const files = {
      ...SMALL_STUDY,
      "study.yaml": STUDY.replace("role: reference_standard", "role: comparator"),
    };
    const { out } = await run(["report", await study("comparator", files)], folder);
    expect(out).toContain("positive percent agreement 8 / 9");
    expect(out).not.toContain("sensitivity");
  });

  it("refuses a folder that holds anything else, and leaves it alone", async () => {
    await study("occupied");
    await mkdir(join(folder, "papers"));
    await writeFile(join(folder, "papers", "thesis.txt"), "mine");
    const { code, err } = await run(["report", "occupied", "--out", "papers"], folder);
    expect(code).toBe(2);
    expect(err).toContain("thesis.txt");
    expect(await readdir(join(folder, "papers"))).toEqual(["thesis.txt"]);
    expect((await run(["report", "occupied", "--out", "occupied"], folder)).code).toBe(2);
  });

  it("fails on a study that can't be read, and keeps the earlier report", async () => {
    await run(["report", await study("broken")], folder);
    const before = await filesBelow(join("broken", "fourfold-report"));
    await fill(join(folder, "broken"), { "results.csv": "no,such,columns\n1,2,3\n" });
    const { code, out, err } = await run(["report", "broken"], folder);
    expect(code).toBe(1);
    expect(out).toBe("");
    expect(err).toContain("can't be read");
    expect(await filesBelow(join("broken", "fourfold-report"))).toEqual(before);
  });
});

describe("verify", () => {
  const place = (name: string) => join(name, "fourfold-report", "report.html");

  it("holds right after the report was made, the study folder found by itself", async () => {
    await run(["report", await study("fresh")], folder);
    const { code, out } = await run(["verify", place("fresh")], folder);
    expect(out).toContain("the report holds");
    expect(out).toContain("3 of 3 files unchanged");
    expect(code).toBe(0);
  });

  it("names the file and the numbers that have changed since", async () => {
    await run(["report", await study("changed")], folder);
    await fill(join(folder, "changed"), { "results.csv": RESULTS.replace("A0,pos,1", "A0,neg,1") });
    const { code, out } = await run(["verify", place("changed")], folder);
    expect(code).toBe(1);
    expect(out).toContain("results.csv: changed");
    expect(out).toMatch(/accuracy\.0\.counts\.truePositives: 8 in the report, 7 now/);
    expect(out).toContain("the report does not hold");
  });

  it("tells a change of bytes from a change of numbers", async () => {
    await run(["report", await study("spaced")], folder);
    await fill(join(folder, "spaced"), { "kit.yaml": `${SMALL_STUDY["kit.yaml"]}# a remark\n` });
    const { code, out } = await run(["verify", place("spaced"), "--study", "spaced"], folder);
    expect(code).toBe(1);
    expect(out).toContain("kit.yaml: changed");
    expect(out).toContain("numbers: the same");
  });

  it("notices a page that was edited by hand", async () => {
    await run(["report", await study("edited")], folder);
    const page = await read(place("edited"));
    await writeFile(join(folder, place("edited")), page.replace("88.9", "98.9"));
    const { code, out } = await run(["verify", place("edited")], folder);
    expect(code).toBe(1);
    expect(out).toContain("changed after it was made");
    expect(out).toContain("numbers: the same");
  });

  it("notices numbers that were edited inside the page", async () => {
    await run(["report", await study("forged")], folder);
    const page = await read(place("forged"));
    await writeFile(
      join(folder, place("forged")),
      page.replace('"count":8,"total":9', '"count":9,"total":9'),
    );
    const { code, out } = await run(["verify", place("forged"), "--json"], folder);
    expect(code).toBe(1);
    const findings = JSON.parse(out) as { holds: boolean; page: string; numbers: { path: string }[] };
    expect(findings.holds).toBe(false);
    expect(findings.page).toBe("different");
    expect(findings.numbers.map((entry) => entry.path)).toEqual(["answers.0.estimate.count"]);
  });

  it("checks the page alone where there is no study folder", async () => {
    await run(["report", await study("lone"), "--out", "moved/report"], folder);
    const { code, out, err } = await run(["verify", join("moved", "report", "report.html")], folder);
    expect(code).toBe(0);
    expect(err).toContain("only the page is checked");
    expect(out).not.toContain("inputs:");
  });

  it("fails on a page that is no report, on a damaged one, and on one of a newer Fourfold", async () => {
    await fill(folder, { "other.html": "<!doctype html><title>no</title>" });
    expect((await run(["verify", "other.html"], folder)).code).toBe(1);
    await run(["report", await study("newer")], folder);
    const page = await read(place("newer"));
    const from = '"format":"fourfold-evaluation","version":1';
    expect(page).toContain(from);
    await writeFile(join(folder, place("newer")), page.replace(from, from.replace(/1$/, "2")));
    const { code, err } = await run(["verify", place("newer")], folder);
    expect(code).toBe(1);
    expect(err).toContain("a newer Fourfold");
    await writeFile(join(folder, place("newer")), page.slice(0, -400));
    expect((await run(["verify", place("newer")], folder)).code).toBe(1);
  });
});

describe("start", () => {
  it("makes a folder that check and report understand at once", async () => {
    const { code, out } = await run(["start", "mine"], folder);
    expect(code).toBe(0);
    expect(out).toContain("fourfold check mine");
    expect(await readdir(join(folder, "mine"))).toContain("study.yaml");
    const checked = await run(["check", "mine"], folder);
    expect(checked.out).not.toContain("can't be read");
    const reported = await run(["report", "mine"], folder);
    expect(reported.code, reported.err).toBe(0);
  });

  it("refuses a folder that already holds something, and a file of that name", async () => {
    await fill(folder, { "taken/notes.txt": "mine", "a-file": "mine" });
    for (const name of ["taken", "a-file"]) {
      const { code, err } = await run(["start", name], folder);
      expect(code).toBe(2);
      expect(err).toContain(name);
    }
    expect(await readdir(join(folder, "taken"))).toEqual(["notes.txt"]);
  });

  it("fills an empty folder", async () => {
    await mkdir(join(folder, "empty"));
    expect((await run(["start", "empty"], folder)).code).toBe(0);
  });
});
