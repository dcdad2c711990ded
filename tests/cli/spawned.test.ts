import { spawn, spawnSync } from "node:child_process";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { writeFolderWhole } from "../../src/cli/files.ts";
import { fill, ownFolder, ROOT } from "./in-process.ts";
import { RESULTS, SMALL_STUDY } from "./small-study.ts";

const folder = ownFolder();
const TSX = ["--import", "tsx"];
const MAIN = join(ROOT, "src", "cli", "main.ts");

/** Run as a program of its own, in the package's folder so that the TypeScript loader is found. */
function fourfold(words: readonly string[], input = "", env: Readonly<Record<string, string>> = {}) {
  const ran = spawnSync(process.execPath, [...TSX, MAIN, ...words], {
    cwd: ROOT,
    input,
    encoding: "utf8",
    env: { ...process.env, ...env },
  });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

describe("the program itself", () => {
  it("ends with 0, 1 and 2, results on standard output and messages on standard error", async () => {
    await fill(join(folder, "sound"), SMALL_STUDY);
    await fill(join(folder, "faulty"), { ...SMALL_STUDY, "results.csv": RESULTS.replace("B3,neg", "B3,?") });
    const sound = fourfold(["check", join(folder, "sound")]);
    expect(sound).toMatchObject({ code: 0 });
    expect(sound.out).toContain("0 errors");
    expect(sound.err).toBe("reading 3 files, 1 KB …\n");
    const faulty = fourfold(["check", join(folder, "faulty")]);
    expect(faulty).toMatchObject({ code: 1 });
    expect(faulty.out).toContain("row 14, column rapid");
    const wrong = fourfold(["chek"]);
    expect(wrong).toMatchObject({ code: 2, out: "" });
    expect(wrong.err).toContain("Did you mean check?");
  });

  it("takes a question from standard input and answers with nothing but JSON", () => {
    const { code, out, err } = fourfold(
      ["compute", "proportion.interval", "--input", "-"],
      '{"input":{"count":9,"total":10}}',
    );
    expect(code).toBe(0);
    expect(err).toBe("");
    // R 4.2.2: binom.test(9, 10)$conf.int
    expect(JSON.parse(out).values.proportion.lower).toBeCloseTo(0.554983882971805, 12);
  });

  it("writes no colour into a pipe, with or without NO_COLOR", () => {
    const colour = "\u001b[";
    expect(fourfold(["--help"]).out).not.toContain(colour);
    expect(fourfold(["--help"], "", { NO_COLOR: "1" }).out).not.toContain(colour);
  });

  it("takes a reader that leaves early for no fault", async () => {
    const child = spawn(process.execPath, [...TSX, MAIN, "methods", "--json"], { cwd: ROOT });
    let err = "";
    child.stderr.on("data", (piece: Buffer) => {
      err += piece.toString();
    });
    child.stdout.destroy();
    const code = await new Promise((done) => child.on("close", done));
    expect(err).toBe("");
    expect(code).toBe(0);
  });

  it("finds its demo and template from any folder", async () => {
    const ran = spawnSync(
      process.execPath,
      ["--import", join(ROOT, "node_modules/tsx/dist/loader.mjs"), MAIN, "start", "mine"],
      {
        cwd: folder,
        encoding: "utf8",
      },
    );
    expect(ran.stderr).toBe("");
    expect(ran.status).toBe(0);
    expect(await readdir(join(folder, "mine"))).toContain("study.yaml");
  });
});

describe("a process killed while it writes", () => {
  it.each([
    ["before the old folder is moved aside", 1],
    ["between the two moves", 2],
  ])("%s leaves a whole report, at the latest at the next run", async (_when, at) => {
    const out = join(folder, `killed-${at}`, "out");
    await writeFolderWhole(out, [{ name: "report.html", content: "old" }]);
    const script = `
      import { rename } from "node:fs/promises";
      import { writeFolderWhole } from ${JSON.stringify(join(ROOT, "src/cli/files.ts"))};
      let moves = 0;
      await writeFolderWhole(${JSON.stringify(out)}, [{ name: "report.html", content: "new" }], async (from, to) => {
        moves += 1;
        if (moves === ${at}) process.kill(process.pid, "SIGKILL");
        await rename(from, to);
      });`;
    const ran = spawnSync(process.execPath, [...TSX, "--input-type=module", "-e", script], {
      cwd: ROOT,
      encoding: "utf8",
    });
    expect(ran.signal, ran.stderr).toBe("SIGKILL");
    const { restoreFolder } = await import("../../src/cli/files.ts");
    await restoreFolder(out);
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("old");
    expect(await readdir(out)).toEqual(["report.html"]);
    await writeFolderWhole(out, [{ name: "report.html", content: "newer" }]);
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("newer");
  });
});
