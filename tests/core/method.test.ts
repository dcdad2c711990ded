import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { count, quantity } from "../../src/core/fields.ts";
import { InputError } from "../../src/core/input-error.ts";
import { compute, defineMethod } from "../../src/core/method.ts";

const sum = defineMethod({
  id: "test.sum",
  version: 2,
  title: "Sum",
  question: "How many in all?",
  formula: "a + b",
  caution: "none",
  sources: ["none"],
  input: v.strictObject({ left: count("left"), right: count("right") }),
  options: v.strictObject({ twice: v.optional(v.boolean(), false) }),
  values: v.strictObject({ sum: quantity("count", "sum") }),
  examples: [
    {
      name: "one and two",
      input: { left: 1, right: 2 },
      expect: { sum: 3 },
      tolerance: { relative: 0 },
      source: "none",
    },
  ],
  run: ({ left, right }, { twice }) => ({ values: { sum: (left + right) * (twice ? 2 : 1) }, notes: [] }),
});

describe("compute", () => {
  it("returns what was asked, with defaults filled in, beside the values", () => {
    expect(compute(sum, { left: 1, right: 2 })).toEqual({
      method: "test.sum",
      version: 2,
      input: { left: 1, right: 2 },
      options: { twice: false },
      values: { sum: 3 },
      notes: [],
    });
  });

  it("names the field of a wrong input or option", () => {
    expect(() => compute(sum, { left: 1, right: -2 })).toThrow(InputError);
    expect(() => compute(sum, { left: 1, right: -2 })).toThrow(
      "input.right: expected 0 or more, received -2",
    );
    expect(() => compute(sum, { left: 1, right: 2 }, { twice: "yes" } as never)).toThrow(
      'options.twice: expected true or false, received "yes"',
    );
  });
});
