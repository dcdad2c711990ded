import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { Ajv } from "ajv";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { Algorithms } from "../../../src/evaluation/algorithm/document.ts";
import { evaluateAlgorithms } from "../../../src/evaluation/algorithm/evaluate-algorithms.ts";
import { algorithmsJsonSchema } from "../../../src/evaluation/algorithm/json-schema.ts";
import { isAlgorithms, readAlgorithms } from "../../../src/evaluation/algorithm/read.ts";
import { algorithmsTables } from "../../../src/evaluation/algorithm/tables.ts";
import { writeAlgorithms } from "../../../src/evaluation/algorithm/write.ts";
import { algorithmJsonSchema } from "../../../src/records/algorithm/json-schema.ts";
import { type AlgorithmText, algorithmText, anyAlgorithm, parsed, readable } from "./any-algorithm.ts";

const ROOT = resolve(import.meta.dirname, "../../..");
const kept = (name: string) =>
  parse(readFileSync(join(ROOT, "data", name, "algorithm.yaml"), "utf8")) as AlgorithmText;
const ajv = new Ajv({ strict: false, allErrors: true, validateFormats: false });
const fits = ajv.compile(algorithmsJsonSchema() as object);
const fileFits = ajv.compile(algorithmJsonSchema() as object);

const within = (share: number | null) => {
  if (share === null) return;
  expect(share).toBeGreaterThanOrEqual(0);
  expect(share).toBeLessThanOrEqual(1);
};

/** What must hold of every document. */
function holds({ answer, outcomes, dependence, stock, file }: Algorithms): void {
  expect(answer.lines).toHaveLength(file.channels.length * file.algorithms.length);
  for (const line of answer.lines) {
    const people = Object.values(line.per100000).reduce((sum, one) => sum + one, 0);
    expect(people).toBeCloseTo(100_000, 4);
    for (const share of [...Object.values(line.chance), line.ppv.value, line.npv.value]) within(share);
    if (file.dependence?.kind === "independent") expect(line.independent.ppv).toBe(line.ppv.value);
  }
  for (const { flow } of outcomes) {
    expect(flow.diseased + flow.nondiseased).toBe(10_000);
    for (const step of flow.steps) {
      const left = step.leads.reduce((sum, lead) => sum + lead.diseased + lead.nondiseased, 0);
      expect(left).toBeCloseTo(step.diseased + step.nondiseased, 6);
    }
    const ended = flow.firstEnds.reduce((sum, end) => sum + end.diseased + end.nondiseased, 0);
    expect(ended).toBeCloseTo(10_000, 5);
  }
  for (const { diseased, nondiseased, table } of dependence.pairs) {
    const { values } = table;
    expect(diseased).toBeGreaterThanOrEqual((values.diseased.lowestPhi ?? -1) - 1e-9);
    expect(nondiseased).toBeLessThanOrEqual((values.nondiseased.highestPhi ?? 1) + 1e-9);
  }
  for (const { order } of stock) {
    const { ordered } = order.values;
    expect(ordered.runsOut).toBeLessThanOrEqual(file.order.risk * (1 + 1e-9));
    expect((ordered.packs ?? 0) * order.input.packSize).toBeGreaterThanOrEqual(ordered.kits ?? 0);
  }
}

describe("any file of algorithms that can be read", () => {
  it("is evaluated without a crash, fits the published schema, and reads back the same", () => {
    let evaluated = 0;
    fc.assert(
      fc.property(anyAlgorithm, (text) => {
        const read = parsed(text);
        if (!read.ok) {
          expect(read.issues.length).toBeGreaterThan(0);
          return;
        }
        evaluated += 1;
        expect(fileFits(text)).toBe(true);
        const algorithms = evaluateAlgorithms(read.value, []);
        const written = writeAlgorithms(algorithms);
        expect(fits(JSON.parse(written))).toBe(true);
        expect(readAlgorithms(JSON.parse(written))).toEqual(algorithms);
        expect(written).not.toMatch(/NaN|Infinity/);
        holds(algorithms);
      }),
      { numRuns: 30, seed: 20261116 },
    );
    expect(evaluated).toBeGreaterThan(15);
  });

  it("with a stronger error correlation among the negatives has more false positives", () => {
    const falsePositives = (negative: number) => {
      const dependence = { kind: "pairs", pairs: [{ kits: ["K", "L"], positive: 0, negative }] };
      const { answer } = evaluateAlgorithms(readable(algorithmText({ dependence })), []);
      return answer.lines[0]?.per100000.falsePositives ?? 0;
    };
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.9, noNaN: true }), (negative) => {
        expect(falsePositives(negative + 0.05)).toBeGreaterThan(falsePositives(negative));
      }),
      { numRuns: 5, seed: 1 },
    );
  });
});

describe("the example and the template", () => {
  it.each(["algorithm", "template-algorithm"])("data/%s can be read, and fits its schema", (name) => {
    expect(fileFits(kept(name))).toBe(true);
    expect(parsed(kept(name)).issues).toEqual([]);
  });

  const example = evaluateAlgorithms(readable({ ...kept("algorithm"), draws: 1000 }), []);

  it("gives the same bytes twice", () => {
    const text = { ...kept("template-algorithm"), draws: 1000 };
    expect(writeAlgorithms(evaluateAlgorithms(readable(text), []))).toBe(
      writeAlgorithms(evaluateAlgorithms(readable(text), [])),
    );
  });

  it("holds as every document must", () => {
    holds(example);
  });

  // The point of the scenario: Kit R is the cheapest second test and shares its false positives with Kit Q; Kit V
  // costs more, and reaches the target more surely.
  it("names Kit R as the cheapest where it suffices, and Kit V as the surest", () => {
    const best = example.answer.best.filter(({ analyte }) => analyte === "hbsag");
    const of = (channel: string) => best.find((one) => one.channel === channel);
    expect(of("antenatal")?.cheapest).toBe("hbsag-q-r");
    expect(of("exposure")?.cheapest).toBe("hbsag-q-v");
    const line = (algorithm: string) =>
      example.answer.lines.find((one) => one.algorithm === algorithm && one.channel === "antenatal");
    const [r, v] = [line("hbsag-q-r"), line("hbsag-q-v")];
    expect(v?.cost.perClient.value).toBeGreaterThan(r?.cost.perClient.value ?? 0);
    expect(v?.chance.ppv).toBeGreaterThan((r?.chance.ppv ?? 1) + 0.2);
    expect(r?.independent.ppv).toBeGreaterThan(v?.independent.ppv ?? 1);
    expect(r?.ppv.value).toBeLessThan(v?.ppv.value ?? 0);
  });

  it("has no table with a row too long, too short, or twice the same", () => {
    const tables = algorithmsTables(example);
    expect(new Set(tables.map(({ name }) => name)).size).toBe(tables.length);
    for (const { name, columns, rows } of tables) {
      expect(rows.length, name).toBeGreaterThan(0);
      expect(new Set(columns).size, name).toBe(columns.length);
      for (const row of rows) expect(row, name).toHaveLength(columns.length);
      expect(new Set(rows.map((row) => JSON.stringify(row))).size, name).toBe(rows.length);
    }
  });
});

describe("reading a document", () => {
  const document = JSON.parse(writeAlgorithms(evaluateAlgorithms(readable(algorithmText()), [])));

  it("knows its own kind", () => {
    expect(isAlgorithms(document)).toBe(true);
    expect(isAlgorithms({ format: "fourfold-planning" })).toBe(false);
    expect(isAlgorithms(null)).toBe(false);
  });

  it.each<[string, unknown, string]>([
    ["no document", [], "an algorithms document"],
    ["another document", { ...document, format: "fourfold-planning" }, "fourfold-algorithms"],
    ["a newer version", { ...document, version: 2 }, "a newer Fourfold wrote this document"],
    ["an older version", { ...document, version: 0 }, "a version of the algorithms document"],
    ["a field too many", { ...document, extra: 1 }, "no such field"],
    ["a field too few", { ...document, answer: undefined }, "the field is missing"],
  ])("refuses %s", (_, value, expected) => {
    expect(() => readAlgorithms(value)).toThrow(expected);
  });

  it("is refused by the published schema, too", () => {
    expect(fits({ ...document, extra: 1 })).toBe(false);
    expect(fits({ ...document, version: "1" })).toBe(false);
  });
});
