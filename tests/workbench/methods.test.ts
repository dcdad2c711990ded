import { describe, expect, it } from "vitest";
import type { WorkedExample } from "../../src/core/method.ts";
import { catalogue, findMethod } from "../../src/methods/index.ts";
import { shapeOf } from "../../src/workbench/forms/shape.ts";
import { compared } from "../../src/workbench/methods/expected.ts";
import {
  asked,
  draftText,
  emptyDraft,
  examplesOf,
  readDraft,
} from "../../src/workbench/methods/method-draft.ts";
import { allDigits, numberText } from "../../src/workbench/methods/number-text.ts";
import { type ValuePart, valueParts } from "../../src/workbench/methods/value-rows.ts";
import { computeMethod } from "../../src/workbench/work/jobs/compute-method.ts";
import { leaves } from "../methods/plain-values.ts";

const silent = async () => {};
const QUICK = [
  "proportion.interval",
  "accuracy.fourfold",
  "proportion.coverage",
  "predictive.over_prevalences",
];

async function valuesOf(id: string, place: number): Promise<unknown> {
  const example = findMethod(id)?.examples[place] as WorkedExample;
  const given = await computeMethod({ id, ...asked(example) }, silent);
  if (!given.ok) throw new Error(given.message);
  return given.computed.values;
}

describe("what a method is asked", () => {
  it("is kept as text, and known again as a worked example, for every example of the catalogue", () => {
    for (const { examples } of catalogue) {
      for (const example of examples) {
        const draft = readDraft(draftText(asked(example)));
        expect(draft === null ? [] : examplesOf(examples, draft)).toContain(example);
      }
    }
  });

  it("is nothing of the user's where the form is empty: no example", () => {
    for (const { input, examples } of catalogue) expect(examplesOf(examples, emptyDraft(input))).toEqual([]);
  });

  it("is null where the text is none of ours", () => {
    expect(readDraft(undefined)).toBe(null);
    expect(readDraft("{")).toBe(null);
    expect(readDraft('{"input":1}')).toBe(null);
  });
});

describe("asking", () => {
  it("names the field that does not fit, and does not fail", async () => {
    const given = await computeMethod({ id: "proportion.interval", input: {}, options: {} }, silent);
    expect(given).toMatchObject({ ok: false });
    expect(given.ok ? [] : given.path[0]).toBe("input");
  });

  it("fails for a method that is not in the catalogue", async () => {
    await expect(computeMethod({ id: "no.such", input: {}, options: {} }, silent)).rejects.toThrow("no.such");
  });
});

describe("a worked example's numbers", () => {
  const example: WorkedExample = {
    name: "made up",
    input: {},
    expect: { "a.b": 0.25, c: null, d: "met" },
    tolerance: { decimals: 2 },
    source: "none",
  };
  const verdicts = (values: unknown, tolerance = example.tolerance) =>
    compared({ ...example, tolerance }, values).map(({ agrees }) => agrees);

  it("agree within half a unit of the last printed decimal, or within the relative difference", () => {
    expect(verdicts({ a: { b: 0.2549 }, c: null, d: "met" })).toEqual([true, true, true]);
    expect(verdicts({ a: { b: 0.2551 }, c: 0, d: "missed" })).toEqual([false, false, false]);
    expect(verdicts({ a: { b: 0.25 * (1 + 1e-7) } }, { relative: 1e-6 })[0]).toBe(true);
    expect(verdicts({ a: { b: 0.25 * (1 + 1e-5) } }, { relative: 1e-6 })[0]).toBe(false);
  });

  it("differ where there is no such value", () => {
    expect(verdicts({})).toEqual([false, false, false]);
  });
});

describe("values laid out for reading", () => {
  it.each(QUICK)("leave nothing out: %s", async (id) => {
    const values = await valuesOf(id, 0);
    const method = findMethod(id);
    if (method === undefined) throw new Error(id);
    const shown = leavesOf(valueParts(shapeOf(method.values), values))
      .map(String)
      .sort();
    expect(shown).toEqual(
      leaves(values)
        .map(([, value]) => String(value))
        .sort(),
    );
  });

  it("carry the meanings of the schema", async () => {
    const method = findMethod("accuracy.fourfold");
    if (method === undefined) throw new Error("no such method");
    const { rows } = valueParts(shapeOf(method.values), await valuesOf(method.id, 0));
    expect(rows.find(({ name }) => name === "sensitivity")?.help).toBe("P(reactive | condition present)");
  });
});

/** All single values that are laid out. */
function leavesOf({ rows, tables, parts }: ValuePart): unknown[] {
  const single = [...rows.map(({ value }) => value), ...tables.flatMap((table) => table.rows.flat())];
  return [...single.flatMap((value) => leaves(value).map(([, leaf]) => leaf)), ...parts.flatMap(leavesOf)];
}

describe("numbers for reading", () => {
  it("are whole where they are whole, and have seven significant digits else", () => {
    expect(numberText(12345)).toBe("12,345");
    expect(numberText(0.123456789)).toBe("0.1234568");
    expect(numberText(-0.5)).toBe("\u22120.5");
    expect(numberText(0.0000123456)).toBe("1.2346\u00a0×\u00a010⁻⁵");
    expect(allDigits(0.1 + 0.2)).toBe("0.30000000000000004");
  });
});
