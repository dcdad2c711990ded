import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { writePage } from "../workbench/write-page.ts";
import { ownFolder, ROOT, run } from "./in-process.ts";

const folder = ownFolder();
const PAGE = join(ROOT, "dist", "workbench.html");

describe("fourfold workbench", () => {
  beforeAll(() => {
    // In a clean clone that was installed without building.
    if (!existsSync(PAGE)) writePage(PAGE);
  });

  it("says where the page is", async () => {
    const { code, out, err } = await run(["workbench", "--print"], folder);
    expect({ code, out, err }).toEqual({ code: 0, out: `${PAGE}\n`, err: "" });
  });

  it("copies the page to a place of the user's, and over nothing", async () => {
    const first = await run(["workbench", "--copy", "mine.html"], folder);
    expect(first).toEqual({ code: 0, out: "workbench: mine.html\n", err: "" });
    expect((await readFile(join(folder, "mine.html"))).equals(await readFile(PAGE))).toBe(true);
    const second = await run(["workbench", "--copy", "mine.html"], folder);
    expect(second).toMatchObject({ code: 2, out: "" });
    expect(second.err).toContain("mine.html: there is something of that name");
  });
});
