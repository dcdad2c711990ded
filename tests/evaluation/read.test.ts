import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import type { Evaluation } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import { tinyInputs, tinyRecords } from "./tiny-study.ts";

const document = () => evaluate(tinyRecords(), tinyInputs);
const plain = () => JSON.parse(writeEvaluation(document())) as Record<string, unknown>;

function refusal(value: unknown): InputError {
  try {
    readEvaluation(value);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read");
}

describe("readEvaluation", () => {
  it("gives back what was written", () => {
    expect(readEvaluation(plain())).toEqual(document());
  });

  it.each([null, 3, "text", [], undefined])("refuses %j, which is no document", (value) => {
    expect(refusal(value).message).toContain("evaluation document");
  });

  it("refuses another format", () => {
    expect(refusal({ ...plain(), format: "something-else" }).message).toContain("evaluation.format");
  });

  it("refuses a document of a newer version, saying so", () => {
    expect(refusal({ ...plain(), version: 2 }).message).toContain("a newer Fourfold");
  });

  it.each([0, "1", undefined, 1.5])("refuses version %j", (version) => {
    expect(refusal({ ...plain(), version }).path).toEqual(["evaluation", "version"]);
  });

  it("names the first field that does not fit", () => {
    const { accuracy } = plain() as unknown as Evaluation;
    const changed = accuracy.map((entry) => ({ ...entry, counts: { ...entry.counts, truePositives: -1 } }));
    expect(refusal({ ...plain(), accuracy: changed }).message).toMatch(
      /^evaluation\.accuracy\.0\.counts\.truePositives: expected/,
    );
    expect(refusal({ ...plain(), extra: 1 }).message).toContain("evaluation.extra: expected no such field");
  });

  it("brings an older version up to date, step by step", () => {
    const { software, ...rest } = plain();
    const oldest = { ...rest, version: -1, madeBy: software };
    const renamed = (older: Readonly<Record<string, unknown>>) => {
      const { madeBy, ...others } = older;
      return { ...others, software: madeBy, version: 0 };
    };
    const numbered = (older: Readonly<Record<string, unknown>>) => ({ ...older, version: 1 });
    expect(readEvaluation(oldest, { [-1]: renamed, 0: numbered })).toEqual(document());
  });
});

describe("writeEvaluation", () => {
  it("puts keys in the order of the schema, however the document came about", () => {
    const evaluation = document();
    const reversed = Object.fromEntries(Object.entries(evaluation).reverse()) as unknown as Evaluation;
    expect(writeEvaluation(reversed)).toBe(writeEvaluation(evaluation));
  });

  it("keeps full precision", () => {
    const written = JSON.parse(writeEvaluation(document())) as Evaluation;
    expect(written.accuracy[0]?.sensitivity.lower).toBe(document().accuracy[0]?.sensitivity.lower);
  });

  it("refuses what no reader could take back", () => {
    const evaluation = document();
    const broken = {
      ...evaluation,
      accuracy: evaluation.accuracy.map((entry) => ({
        ...entry,
        youden: { value: Number.NaN, lower: null, upper: null },
      })),
    };
    expect(() => writeEvaluation(broken)).toThrow(InputError);
    const infinite = {
      ...evaluation,
      accuracy: evaluation.accuracy.map((entry) => ({
        ...entry,
        youden: { value: Number.POSITIVE_INFINITY, lower: null, upper: null },
      })),
    };
    expect(() => writeEvaluation(infinite)).toThrow(InputError);
  });
});
