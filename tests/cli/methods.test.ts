import { readFile } from "node:fs/promises";
import { join } from "node:path";
import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { fieldsOf } from "../../src/cli/fields-of.ts";
import { count, estimate, level, text } from "../../src/core/fields.ts";
import { catalogue } from "../../src/methods/index.ts";
import { expectClose } from "../tolerance.ts";
import { fill, ownFolder, ROOT, run } from "./in-process.ts";

const folder = ownFolder();

describe("methods", () => {
  it("lists every method with its question", async () => {
    const { code, out } = await run(["methods"], ROOT);
    expect(code).toBe(0);
    for (const { id, question } of catalogue) {
      expect(out).toContain(question);
      expect(out).toContain(id);
    }
  });

  it.each(catalogue.map((method) => [method.id, method] as const))(
    "explains %s: fields, caution, formula, examples",
    async (id, method) => {
      const { code, out } = await run(["methods", id], ROOT);
      expect(code).toBe(0);
      for (const part of [method.question, method.caution, method.formula, method.title])
        expect(out).toContain(part);
      for (const example of method.examples) expect(out).toContain(example.name);
      for (const schema of [method.input, method.options, method.values]) {
        for (const field of fieldsOf(schema)) expect(out).toContain(field.name);
      }
    },
  );

  it("gives the fields of every method as JSON Schema", async () => {
    for (const { id } of catalogue) {
      const { out } = await run(["methods", id, "--json"], ROOT);
      const described = JSON.parse(out) as { id: string; input: { type: string; properties: object } };
      expect(described.id).toBe(id);
      expect(described.input.type).toBe("object");
      expect(Object.keys(described.input.properties).length).toBeGreaterThan(0);
    }
  });
});

describe("fieldsOf", () => {
  it("names fields with unit, meaning and default", () => {
    const schema = v.strictObject({
      people: count("people seen"),
      level: level(0.95),
      strata: v.pipe(
        v.array(v.strictObject({ label: text("the stratum") })),
        v.description("one entry each"),
      ),
      value: estimate("ratio", "how many times"),
    });
    expect(fieldsOf(schema)).toEqual([
      {
        name: "people",
        shape: "number",
        unit: "count",
        meaning: "people seen",
        optional: false,
        standard: undefined,
      },
      {
        name: "level",
        shape: "number",
        unit: "proportion",
        meaning: "confidence level",
        optional: true,
        standard: 0.95,
      },
      {
        name: "strata",
        shape: "list of label",
        unit: null,
        meaning: "one entry each",
        optional: false,
        standard: undefined,
      },
      {
        name: "strata[].label",
        shape: "text",
        unit: "text",
        meaning: "the stratum",
        optional: false,
        standard: undefined,
      },
      {
        name: "value",
        shape: "value, lower, upper",
        unit: "ratio",
        meaning: "how many times",
        optional: false,
        standard: undefined,
      },
    ]);
  });
});

describe("compute", () => {
  const ask = (id: string, question: unknown) =>
    run(
      ["compute", id, "--input", "-"],
      ROOT,
      typeof question === "string" ? question : JSON.stringify(question),
    );

  it("gives the exact interval of 44 of 51 from standard input", async () => {
    const { code, out, err } = await ask("proportion.interval", { input: { count: 44, total: 51 } });
    expect(code).toBe(0);
    expect(err).toBe("");
    const answer = JSON.parse(out) as {
      method: string;
      version: number;
      values: { proportion: Record<string, number> };
    };
    expect(answer).toMatchObject({ method: "proportion.interval", version: 1, notes: [] });
    // R 4.2.2: binom.test(44, 51)$conf.int
    expect(answer.values.proportion.lower).toBeCloseTo(0.737448456695454, 12);
    expect(answer.values.proportion.upper).toBeCloseTo(0.942988186536631, 12);
  });

  it("reads a file, and takes options", async () => {
    await fill(folder, {
      "ask.json": JSON.stringify({ input: { count: 44, total: 51 }, options: { method: "wilson" } }),
    });
    const { code, out } = await run(["compute", "proportion.interval", "--input", "ask.json"], folder);
    expect(code).toBe(0);
    expect(JSON.parse(out).options).toMatchObject({ method: "wilson", level: 0.95 });
  });

  it.each(catalogue.map((method) => [method.id, method] as const))(
    "runs the first example of %s",
    async (id, method) => {
      const [example] = method.examples;
      const { code, out } = await ask(id, { input: example.input, options: example.options });
      expect(code).toBe(0);
      const { values } = JSON.parse(out) as { values: unknown };
      const { tolerance } = example;
      const allowed = "decimals" in tolerance ? { absolute: 0.5 * 10 ** -tolerance.decimals } : tolerance;
      for (const [path, expected] of Object.entries(example.expect)) {
        const found = path
          .split(".")
          .reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], values);
        if (typeof expected === "number") expectClose(found as number, expected, allowed, path);
        else expect(found, path).toBe(expected);
      }
    },
  );

  it.each([
    [{ input: { count: 5, total: 4 } }, "input.count"],
    [{ input: { count: -1, total: 4 } }, "input.count"],
    [{ input: { count: 1 } }, "input.total"],
    [{ input: { count: 1, total: 4, extra: 1 } }, "input.extra"],
    [{ input: { count: 1, total: 4 }, options: { level: 2 } }, "options.level"],
    [{ input: { count: 1, total: 4 }, option: {} }, '"option"'],
    [{ options: {} }, "input"],
    ["[1]", "expected"],
    ["{", "not JSON"],
    ["", "not JSON"],
  ])("refuses %j and names the place", async (question, place) => {
    const { code, out, err } = await ask("proportion.interval", question);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(place);
  });

  it("refuses a file that is not there or is not text", async () => {
    expect((await run(["compute", "proportion.interval", "--input", "no.json"], folder)).err).toContain(
      "no.json",
    );
    const image = join(ROOT, "package-lock.json");
    expect((await readFile(image)).length).toBeGreaterThan(0);
    const bytes = Buffer.from([0xff, 0xfe, 0x7b]);
    const { writeFile } = await import("node:fs/promises");
    await writeFile(join(folder, "bytes.json"), bytes);
    const { code, err } = await run(["compute", "proportion.interval", "--input", "bytes.json"], folder);
    expect(code).toBe(2);
    expect(err).toContain("UTF-8");
  });
});
