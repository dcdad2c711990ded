import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { type DemoFile, makeDemo } from "../../src/demo/make-demo.ts";
import { makeCounts, makePartlyVerified, makeWide } from "../../src/demo/make-small.ts";

const DATA = resolve(import.meta.dirname, "../../data");
const demo = makeDemo();

/** Names of files whose bytes are not those of the generator, or that only one of the two has. */
function differing(folder: string, made: readonly DemoFile[]): string[] {
  const texts = new Map(made.map(({ name, text }) => [name, text]));
  const names = new Set([...texts.keys(), ...readdirSync(join(DATA, folder))]);
  return [...names].filter((name) => {
    const text = texts.get(name);
    return text === undefined || !readFileSync(join(DATA, folder, name)).equals(Buffer.from(text));
  });
}

describe("the invented studies", () => {
  it("the demo study is byte for byte what its generator gives", () => {
    const truth = { name: "truth.json", text: `${JSON.stringify(demo.truth, null, 2)}\n` };
    expect(differing("demo", [...demo.files, truth])).toEqual([]);
  });

  it("so are the two small studies", () => {
    expect(differing("wide", makeWide())).toEqual([]);
    expect(differing("counts", makeCounts())).toEqual([]);
    expect(differing("partly-verified", makePartlyVerified())).toEqual([]);
  });

  it("the same seed gives the same bytes, another seed other bytes", () => {
    expect(makeDemo()).toEqual(demo);
    const other = makeDemo(1);
    const changed = other.files.filter(({ text }, index) => text !== demo.files[index]?.text);
    expect(changed.map(({ name }) => name)).toEqual(
      demo.files.map(({ name }) => name).filter((name) => !/kit|lots|operators/.test(name)),
    );
  });

  it("says of itself that it is invented", () => {
    for (const { name, text } of [...demo.files, ...makeWide(), ...makeCounts(), ...makePartlyVerified()]) {
      if (name.endsWith(".yaml")) expect(text.split("\n").slice(0, 2).join(" ")).toMatch(/invented/);
    }
    expect(demo.truth.what).toMatch(/invented/);
  });
});
