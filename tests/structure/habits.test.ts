import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { SOFTWARE_VERSION } from "../../src/core/version.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const read = (name: string) => readFileSync(join(ROOT, name), "utf8");
const manifest = JSON.parse(read("package.json")) as { version: string; scripts: Record<string, string> };
const sources = readdirSync(join(ROOT, "src"), { recursive: true, encoding: "utf8" }).filter((name) =>
  /\.tsx?$/.test(name),
);

/** Code without its prose: the words of strings and doc comments speak of "any" line freely. */
const withoutText = (code: string) => code.replace(/\/\*\*[\s\S]*?\*\/|"(?:[^"\\]|\\.)*"|`[^`]*`/g, "");

describe("the habits of the house", () => {
  it("the version is said once", () => {
    expect(SOFTWARE_VERSION).toBe(manifest.version);
  });

  it("no source file is longer than one would want to read", () => {
    const long = sources
      .map((name) => ({ name, lines: read(`src/${name}`).split("\n").length }))
      .filter(({ lines }) => lines > 300);
    expect(long).toEqual([]);
  });

  it("the type checker is never silenced", () => {
    const silenced = sources.filter((name) =>
      /@ts-ignore|@ts-expect-error|\bas any\b|: any\b|<any>/.test(withoutText(read(`src/${name}`))),
    );
    expect(silenced).toEqual([]);
  });

  it("every npm script that the two guides name exists", () => {
    for (const guide of ["README.md", "DEVELOPERS.md"]) {
      const named = [...read(guide).matchAll(/npm run ([a-z:]+)/g)].map((match) => match[1] as string);
      expect(named.filter((name) => !(name in manifest.scripts))).toEqual([]);
    }
  });

  it("every file that the two guides name exists", () => {
    for (const guide of ["README.md", "DEVELOPERS.md"]) {
      const named = [...read(guide).matchAll(/`((?:src|data|tests|reports|notebooks)\/[\w./-]+\.\w+)`/g)].map(
        (match) => match[1] as string,
      );
      const tracked = new Set(
        execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard"], {
          cwd: ROOT,
          encoding: "utf8",
        }).split("\n"),
      );
      expect(named.filter((name) => !tracked.has(name))).toEqual([]);
    }
  });
});
