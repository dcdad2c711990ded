import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { publishedSchemas } from "../../src/cli/published-schemas.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import { people, setOf, tinyInputs, tinyRecords, twentyPeople } from "./tiny-study.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");

/** Holds a value against a published file, by a validator that is not ours. */
function faultsOf(schema: string, value: unknown): unknown[] {
  const ajv = new Ajv({ strict: false, allErrors: true, formats: { date: /^\d{4}-\d\d-\d\d$/ } });
  const fits = ajv.compile(JSON.parse(read(schema)) as object);
  fits(value);
  return fits.errors ?? [];
}

const EVALUATION = "src/evaluation/evaluation.v1.schema.json";

describe("the published JSON Schemas", () => {
  it.each(publishedSchemas().map((published) => [published.path, published.text] as const))(
    "%s is up to date (else: npm run generate)",
    (path, text) => {
      expect(read(path)).toBe(text);
    },
  );

  it("accept the evaluation of any study, the empty one too", () => {
    const studies = [
      tinyRecords(),
      tinyRecords([setOf([])]),
      tinyRecords([setOf(people(3, { rapid: "reactive", reference: "positive", selection: "enriched" }))]),
      tinyRecords([setOf(twentyPeople())], {
        study: {
          criteria: [
            {
              id: "se",
              analyte: "one",
              measure: "sensitivity",
              at_least: 0.9,
              rule: "interval",
              importance: "primary",
              source: "x",
            },
          ],
          prevalences: [{ id: "p", title: "P", values: { one: 0.1 } }],
          strata: [{ id: "lot", title: "Lot", column: "lot", planned: true }],
        },
      }),
    ];
    for (const records of studies) {
      const document = JSON.parse(writeEvaluation(evaluate(records, tinyInputs)));
      expect(faultsOf(EVALUATION, document)).toEqual([]);
    }
  });

  it("refuse a document with a field too many, too few, or of another kind", () => {
    const document = JSON.parse(writeEvaluation(evaluate(tinyRecords(), tinyInputs)));
    expect(faultsOf(EVALUATION, { ...document, extra: 1 })).not.toEqual([]);
    expect(faultsOf(EVALUATION, { ...document, accuracy: undefined })).not.toEqual([]);
    expect(faultsOf(EVALUATION, { ...document, version: "1" })).not.toEqual([]);
  });

  it.each(["demo", "counts", "wide", "results-nwtco", "template"])(
    "accept study and kit file of data/%s",
    (name) => {
      expect(faultsOf("src/records/study.v1.schema.json", parse(read(`data/${name}/study.yaml`)))).toEqual(
        [],
      );
      expect(faultsOf("src/records/kit.v1.schema.json", parse(read(`data/${name}/kit.yaml`)))).toEqual([]);
    },
  );
});

describe("documents of every version so far", () => {
  const kept = readdirSync(join(import.meta.dirname, "golden")).filter((name) => name.endsWith(".json"));

  it("are kept", () => {
    expect(kept).toContain("evaluation.v1.json");
  });

  it.each(kept)("%s still opens", (name) => {
    const evaluation = readEvaluation(JSON.parse(read(`tests/evaluation/golden/${name}`)));
    expect(evaluation.accuracy[0]?.counts).toEqual({
      truePositives: 8,
      falsePositives: 1,
      falseNegatives: 1,
      trueNegatives: 8,
    });
  });
});
