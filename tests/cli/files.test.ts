import { mkdir, readdir, readFile, rename, rm, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { restoreFolder, writeFileWhole, writeFolderWhole } from "../../src/cli/files.ts";
import { readInside } from "../../src/cli/study-folder.ts";
import { fill, ownFolder } from "./in-process.ts";

const folder = ownFolder();
let next = 0;

/** A fresh place for each test. */
async function place(): Promise<string> {
  next += 1;
  const path = join(folder, String(next));
  await mkdir(path);
  return path;
}

const crash = () => {
  throw new Error("the machine stopped");
};

describe("writing one file", () => {
  it("puts the new one in place, and nothing else", async () => {
    const here = await place();
    await writeFile(join(here, "a.txt"), "old");
    await writeFileWhole(join(here, "a.txt"), "new");
    expect(await readFile(join(here, "a.txt"), "utf8")).toBe("new");
    expect(await readdir(here)).toEqual(["a.txt"]);
  });

  it("leaves the old one whole when it stops between writing and moving", async () => {
    const here = await place();
    await writeFile(join(here, "a.txt"), "old");
    await expect(writeFileWhole(join(here, "a.txt"), "new", crash)).rejects.toThrow("stopped");
    expect(await readFile(join(here, "a.txt"), "utf8")).toBe("old");
    expect(await readdir(here)).toEqual(["a.txt"]);
  });
});

describe("writing a folder", () => {
  const OLD = [{ name: "report.html", content: "old" }];
  const NEW = [
    { name: "report.html", content: "new" },
    { name: "tables/a.csv", content: "a\n" },
  ];

  it("puts the new one in place of the old, without a trace of it", async () => {
    const here = await place();
    const out = join(here, "out");
    await writeFolderWhole(out, [...OLD, { name: "tables/gone.csv", content: "" }]);
    await writeFolderWhole(out, NEW);
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("new");
    expect(await readdir(join(out, "tables"))).toEqual(["a.csv"]);
    expect(await readdir(here)).toEqual(["out"]);
  });

  it.each([1, 2])("leaves the old one whole when move number %i fails", async (failing) => {
    const here = await place();
    const out = join(here, "out");
    await writeFolderWhole(out, OLD);
    let moves = 0;
    const failingMove = async (from: string, to: string) => {
      moves += 1;
      if (moves === failing) crash();
      await rename(from, to);
    };
    await expect(writeFolderWhole(out, NEW, failingMove)).rejects.toThrow("stopped");
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("old");
    expect(await readdir(out)).toEqual(["report.html"]);
    expect(await readdir(here)).toEqual(["out"]);
  });

  it("brings the old one back when the machine stopped between the two moves", async () => {
    const here = await place();
    const out = join(here, "out");
    await writeFolderWhole(out, OLD);
    // What a power cut at that moment leaves: the old folder aside, nothing in its place.
    await rename(out, join(here, ".out.fourfold-old"));
    await restoreFolder(out);
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("old");
    expect(await readdir(here)).toEqual(["out"]);
  });

  it("clears the old one when the machine stopped after the second move", async () => {
    const here = await place();
    const out = join(here, "out");
    await writeFolderWhole(join(here, ".out.fourfold-old"), OLD);
    await writeFolderWhole(out, NEW);
    expect(await readdir(here)).toEqual(["out"]);
    expect(await readFile(join(out, "report.html"), "utf8")).toBe("new");
  });

  it("makes the folders above it", async () => {
    const here = await place();
    await writeFolderWhole(join(here, "a", "b"), OLD);
    expect(await readdir(join(here, "a"))).toEqual(["b"]);
  });
});

describe("reading inside a study folder", () => {
  it("reads a plain file, also in a folder below", async () => {
    const here = await place();
    await fill(here, { "tables/a.csv": "x" });
    expect((await readInside(here, "tables/a.csv"))?.bytes.toString()).toBe("x");
    expect(await readInside(here, "tables/b.csv")).toBeNull();
    expect(await readInside(here, "nothing/b.csv")).toBeNull();
  });

  it("refuses a link, and a folder that is a link", async () => {
    const here = await place();
    const outside = await place();
    await fill(outside, { "secret.csv": "x" });
    await symlink(join(outside, "secret.csv"), join(here, "a.csv"));
    await symlink(outside, join(here, "tables"));
    await expect(readInside(here, "a.csv")).rejects.toThrow("link");
    await expect(readInside(here, "tables/secret.csv")).rejects.toThrow("out of the study folder");
    await expect(readInside(here, "../2/a.txt")).rejects.toThrow("out of the study folder");
    await rm(outside, { recursive: true });
  });

  it("refuses a folder in place of a file", async () => {
    const here = await place();
    await mkdir(join(here, "a.csv"));
    await expect(readInside(here, "a.csv")).rejects.toThrow("not a file");
  });
});
