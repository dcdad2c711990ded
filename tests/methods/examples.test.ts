import { describe, expect, it } from "vitest";
import { check } from "../../src/core/check.ts";
import { compute } from "../../src/core/method.ts";
import { catalogue } from "../../src/methods/index.ts";
import { sources } from "../../src/methods/sources.ts";
import { expectClose } from "../tolerance.ts";
import { faultsOf, valueAt } from "./plain-values.ts";

/** The worked examples that every method carries, and shows to the student, executed. */
describe.each(catalogue)("$id", (method) => {
  it.each(method.examples)("$name", (example) => {
    const found = compute(method, example.input, example.options);
    for (const [path, expected] of Object.entries(example.expect)) {
      const actual = valueAt(found.values, path);
      if (typeof expected !== "number") expect(actual, path).toBe(expected);
      else expectClose(actual as number | null, expected, toleranceOf(example.tolerance), path);
    }
    expect(faultsOf(found)).toEqual([]);
    expect(check(method.values, found.values)).toMatchObject({ ok: true });
  });

  it("says of every example from a source that was not seen that it is recalled", () => {
    for (const { name, source, memory } of method.examples) {
      const known = (sources as Readonly<Record<string, { seen: boolean }>>)[source];
      if (known !== undefined && !known.seen) expect(memory, name).toBe(true);
    }
  });
});

function toleranceOf(tolerance: { relative: number } | { decimals: number }) {
  if ("relative" in tolerance) return { relative: tolerance.relative };
  return { absolute: 0.5 * 10 ** -tolerance.decimals * (1 + 1e-9) };
}
