import { describe, expect, it } from "vitest";
import { fill, ownFolder, run } from "./in-process.ts";
import { RESULTS, SMALL_STUDY, STUDY } from "./small-study.ts";

const folder = ownFolder();

async function study(name: string, files: Readonly<Record<string, string>>): Promise<string> {
  await fill(`${folder}/${name}`, files);
  return name;
}

describe("check", () => {
  it("is content with a sound study", async () => {
    const { code, out } = await run(["check", await study("sound", SMALL_STUDY)], folder);
    expect(code).toBe(0);
    expect(out).toContain("results.csv: 19 rows, 19 used, 0 set aside");
    expect(out).toContain("0 errors");
  });

  it("names file, row, column, what was expected and what was found", async () => {
    const files = { ...SMALL_STUDY, "results.csv": RESULTS.replace("B3,neg", "B3,perhaps") };
    const { code, out } = await run(["check", await study("faulty", files)], folder);
    expect(code).toBe(1);
    expect(out).toMatch(/results\.csv: error/);
    expect(out).toMatch(/row 14, column rapid: expected .*received "perhaps"/);
    expect(out).toContain("to mend it:");
  });

  it("tells the same as JSON", async () => {
    const files = { ...SMALL_STUDY, "results.csv": RESULTS.replace("B3,neg", "B3,perhaps") };
    const { code, out } = await run(["check", await study("faulty-json", files), "--json"], folder);
    expect(code).toBe(1);
    const found = JSON.parse(out) as {
      readable: boolean;
      counts: { error: number };
      issues: { row: number }[];
    };
    expect(found.readable).toBe(true);
    expect(found.counts.error).toBe(1);
    expect(found.issues[0]).toMatchObject({ file: "results.csv", row: 14, column: "rapid" });
  });

  it("fails without a study file, and says how to get one", async () => {
    const { code, err } = await run(["check", await study("bare", { "results.csv": RESULTS })], folder);
    expect(code).toBe(1);
    expect(err).toContain("study.yaml");
    expect(err).toContain("fourfold start");
  });

  it("fails on a study file that can't be understood, naming its line", async () => {
    const files = { ...SMALL_STUDY, "study.yaml": STUDY.replace("status: locked", "status: open") };
    const { code, out } = await run(["check", await study("odd", files)], folder);
    expect(code).toBe(1);
    expect(out).toContain("status");
    expect(out).toContain("row 4");
  });

  it("never leaves the study folder, whatever the study file says", async () => {
    await fill(folder, { "outside.csv": RESULTS });
    const files = {
      ...SMALL_STUDY,
      "study.yaml": STUDY.replace("table: results.csv", "table: ../outside.csv"),
    };
    const { code, out } = await run(["check", await study("escaping", files)], folder);
    expect(code).toBe(1);
    expect(out).toContain("inside the study folder");
  });

  it("names a table that is missing", async () => {
    const { "results.csv": _, ...files } = SMALL_STUDY;
    const { code, out } = await run(["check", await study("halved", files)], folder);
    expect(code).toBe(1);
    expect(out).toContain("results.csv");
    expect(out).toContain("missing_file");
  });
});
