import { readdirSync, readFileSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type ConversionConfig, toJsonSchema } from "@valibot/to-json-schema";
import Ajv2020 from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { compute } from "../../src/core/method.ts";
import { catalogue, findMethod } from "../../src/methods/index.ts";
import { sources } from "../../src/methods/sources.ts";

const METHODS = fileURLToPath(new URL("../../src/methods/", import.meta.url));

/** Methods without an example from outside this project, and why. */
const NOTHING_OUTSIDE: Readonly<Record<string, string>> = {};

function filesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = `${folder}/${name}`;
    return statSync(path).isDirectory() ? filesUnder(path) : [path];
  });
}

/** `accuracy/joint-analytes.ts` defines `accuracy.joint_analytes`. */
function idOf(file: string): string {
  return file
    .slice(METHODS.length)
    .replace(/^\//, "")
    .replace(/\.ts$/, "")
    .replaceAll("/", ".")
    .replaceAll("-", "_");
}

describe("the catalogue", () => {
  it("lists every file that defines a method, under the id that its path gives", () => {
    const defining = filesUnder(METHODS).filter((file) =>
      /\bdefineMethod\(/.test(readFileSync(file, "utf8")),
    );
    expect(defining.length).toBeGreaterThan(0);
    expect(catalogue.map(({ id }) => id).sort()).toEqual(defining.map(idOf).sort());
  });

  it("finds a method by its id, and nothing by another", () => {
    for (const method of catalogue) expect(findMethod(method.id)).toBe(method);
    expect(findMethod("proportion.nothing")).toBeUndefined();
  });

  it("names only sources that are listed, and lists none that nothing names", () => {
    const named = new Set(
      catalogue.flatMap((method) => [
        ...method.sources,
        ...method.examples
          .map(({ source }) => source)
          .filter((source) => !source.startsWith("no publication")),
      ]),
    );
    expect([...named].sort()).toEqual(Object.keys(sources).sort());
  });
});

describe.each(catalogue)("$id", (method) => {
  it("has two examples or more, with different names, one from outside this project", () => {
    const names = method.examples.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThanOrEqual(2);
    const outside = method.examples.filter(
      ({ source, recomputedBy }) => Object.hasOwn(sources, source) || recomputedBy !== undefined,
    );
    if (outside.length === 0) expect(NOTHING_OUTSIDE).toHaveProperty([method.id]);
  });

  it("says what it answers, how, and when it behaves badly", () => {
    expect(method.question).toMatch(/\?$/);
    expect(method.formula.length).toBeGreaterThan(20);
    expect(method.caution.length).toBeGreaterThan(20);
    expect(method.version).toBeGreaterThanOrEqual(1);
  });

  it("can be written as JSON Schema, which its examples then satisfy", () => {
    // A number in JSON is finite anyway.
    const published: ConversionConfig = { ignoreActions: ["finite"], target: "draft-2020-12" };
    const ajv = new Ajv2020.default({ strict: false });
    const compiled = (schema: typeof method.input, typeMode: "input" | "output") =>
      ajv.compile(toJsonSchema(schema, { ...published, typeMode }) as object);
    const input = compiled(method.input, "input");
    const options = compiled(method.options, "input");
    const values = compiled(method.values, "output");
    for (const example of method.examples) {
      const found = compute(method, example.input, example.options);
      expect(input(example.input), JSON.stringify(input.errors)).toBe(true);
      expect(options(example.options ?? {}), JSON.stringify(options.errors)).toBe(true);
      expect(values(found.values), JSON.stringify(values.errors)).toBe(true);
    }
  });
});
