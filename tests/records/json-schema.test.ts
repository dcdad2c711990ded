import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import { kitJsonSchema, studyJsonSchema } from "../../src/records/json-schema.ts";
import { parseKit, parseStudy } from "../../src/records/read-study.ts";
import { kitPlan, studyPlan, textFile } from "./build-study.ts";

const ajv = new Ajv({ allErrors: true, validateFormats: false });
const study = ajv.compile(studyJsonSchema() as object);
const kit = ajv.compile(kitJsonSchema() as object);

/** A general-purpose JSON Schema validator holds the same files against the published schemas. */
describe("published JSON Schemas", () => {
  it("accept what reading accepts", () => {
    expect(study(studyPlan())).toBe(true);
    expect(kit(kitPlan())).toBe(true);
  });

  it.each<Record<string, unknown>>([
    { colour: "red" },
    { status: "ready" },
    { seed: 1.5 },
    { title: "" },
    { arms: [] },
    { kit: undefined },
    { records: { shape: "cells", table: "x.csv" } },
    { interval: { method: "wald", level: 0.95 } },
    { analytes: [{ id: "A1" }] },
  ])("refuse a study file that reading refuses: %j", (change) => {
    const changed = { ...studyPlan(), ...change };
    expect(study(JSON.parse(JSON.stringify(changed)))).toBe(false);
    expect(parseStudy(textFile("study.yaml", stringify(changed))).ok).toBe(false);
  });

  it("refuse unknown results in a reference algorithm", () => {
    const changed = JSON.stringify(studyPlan()).replace('"nonreactive":"negative"', '"negative":"negative"');
    expect(study(JSON.parse(changed))).toBe(false);
    expect(parseStudy(textFile("study.yaml", changed)).ok).toBe(false);
  });

  it("refuse a kit file that reading refuses", () => {
    const changed = { ...kitPlan(), faint_line: "maybe" };
    expect(kit(changed)).toBe(false);
    expect(parseKit(textFile("kit.yaml", stringify(changed))).ok).toBe(false);
  });
});
