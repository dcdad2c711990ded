import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { run } from "../cli/in-process.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "fourfold-reports-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function filesOf(place: string): Map<string, string> {
  const names = readdirSync(place, { recursive: true, encoding: "utf8" }).map((name) =>
    name.replaceAll("\\", "/"),
  );
  return new Map(
    names
      .filter((name) => /\.\w+$/.test(name))
      .map((name) => [name, readFileSync(join(place, name), "utf8")]),
  );
}

describe("the example reports in reports/", () => {
  it.each([
    ["report", "demo", "data/demo"],
    ["report", "nwtco", "data/results-nwtco"],
    ["report", "two-kits", "data/two-kits-nodal"],
    ["report", "instruments", "data/instruments-urine"],
    ["plan", "plan", "data/plan/plan.yaml"],
    ["algorithm", "algorithm", "data/algorithm/algorithm.yaml"],
    ["pool", "pool", "data/pool/pool.yaml"],
  ])(
    "%s %s is what the program writes today, byte for byte (else: npm run reports, and look)",
    async (command, name, given) => {
      const out = join(folder, name);
      const { code, err } = await run([command, join(ROOT, given), "--out", out], ROOT);
      expect({ code, err: code === 0 ? "" : err }).toEqual({ code: 0, err: "" });
      const fresh = filesOf(out);
      const kept = filesOf(join(ROOT, "reports", name));
      expect([...kept.keys()].sort()).toEqual([...fresh.keys()].sort());
      const changed = [...fresh].filter(([file, text]) => kept.get(file) !== text).map(([file]) => file);
      expect(changed).toEqual([]);
    },
  );
});
