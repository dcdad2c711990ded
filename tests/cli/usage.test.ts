import { describe, expect, it } from "vitest";
import { SOFTWARE_VERSION } from "../../src/core/version.ts";
import { ROOT, run } from "./in-process.ts";

const COMMANDS = ["start", "check", "report", "verify", "methods", "compute", "demo"];

describe("help", () => {
  it("lists every command, the exit codes and an example", async () => {
    const { code, out, err } = await run(["--help"], ROOT);
    expect(code).toBe(0);
    expect(err).toBe("");
    for (const command of COMMANDS) expect(out).toMatch(new RegExp(`^ {2}${command}\\b`, "m"));
    expect(out).toMatch(/0 done; 1 .*; 2 wrong usage/);
    expect(out).toContain("fourfold demo");
  });

  it.each(COMMANDS)("of %s has an example that begins with its name", async (command) => {
    const { code, out } = await run([command, "--help"], ROOT);
    expect(code).toBe(0);
    expect(out.split("Example:")[1]).toContain(`fourfold ${command}`);
  });

  it("says the version", async () => {
    expect((await run(["--version"], ROOT)).out).toBe(`${SOFTWARE_VERSION}\n`);
  });
});

describe("wrong usage", () => {
  it.each([
    [["chek", "x"], "check"],
    [["verfy", "x"], "verify"],
    [["check", "x", "--jsn"], "--json"],
    [["report", "x", "--uot", "y"], "--out"],
    [["methods", "proportion.intreval"], "proportion.interval"],
    [["compute", "acuracy.fourfold", "--input", "-"], "accuracy.fourfold"],
  ])("%j is refused with the nearest name", async (words, name) => {
    const { code, out, err } = await run(words, ROOT, "{}");
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(/did you mean/i);
    expect(err).toContain(name);
  });

  it.each([
    [["check"]],
    [["check", "a", "b"]],
    [["compute", "proportion.interval"]],
    [["report", "a", "--out"]],
    [[]],
  ])("%j is wrong usage, told on standard error", async (words) => {
    const { code, out, err } = await run(words, ROOT);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).not.toBe("");
  });

  it("names a folder or file that is not there, without the trace of a crash", async () => {
    for (const words of [
      ["check", "nowhere"],
      ["report", "nowhere"],
      ["verify", "nowhere.html"],
      ["check", "package.json"],
    ]) {
      const { code, err } = await run(words, ROOT);
      expect(code, words.join(" ")).toBe(2);
      expect(err).toContain(words[1]);
      expect(err).not.toMatch(/\n\s+at /);
    }
  });
});
