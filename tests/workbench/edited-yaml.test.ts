import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Edit, edited, type Path } from "../../src/workbench/forms/edit.ts";
import { editedYaml, valueOfYaml } from "../../src/workbench/forms/edited-yaml.ts";
import { ROOT } from "./opened.ts";

const FILES = [
  "data/demo/study.yaml",
  "data/demo/kit.yaml",
  "data/counts/study.yaml",
  "data/results-nwtco/study.yaml",
  "data/two-kits-nodal/study.yaml",
  "data/partly-verified/study.yaml",
];
const texts = FILES.map((file) => readFileSync(`${ROOT}/${file}`, "utf8"));

/** Every place of a value, the whole apart. */
function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [];
  const entries = Array.isArray(value) ? value.map((item, at) => [at, item] as const) : Object.entries(value);
  return entries.flatMap(([step, inner]) => [[...path, step], ...pathsOf(inner, [...path, step])]);
}

const valueIn = (text: string) => valueOfYaml(text)?.value;
const inside = (value: unknown, path: Path) =>
  path.reduce<unknown>((at, step) => (at as Record<string, unknown>)[step as string], value);

describe("a YAML text that a form edits", () => {
  it.each(texts.map((text, place) => [FILES[place], text]))(
    "stays as it is where nothing changes: %s",
    (_, text) => {
      const value = valueIn(text as string);
      for (const path of pathsOf(value)) {
        const leaf = inside(value, path);
        if (typeof leaf !== "number") continue;
        expect(editedYaml(text as string, { kind: "set", path, value: leaf })).toBe(text);
      }
    },
  );

  it("changes a value within its own line, and leaves every other byte", () => {
    const text = "# why\ninterval: { method: wilson, level: 0.95 } # chosen\nseed: 1 # any\n";
    expect(editedYaml(text, { kind: "set", path: ["interval", "level"], value: 0.9 })).toBe(
      "# why\ninterval: { method: wilson, level: 0.9 } # chosen\nseed: 1 # any\n",
    );
  });

  it("puts a new field in the place that the schema gives it, and takes one away", () => {
    const text = "id: a\n# the seed\nseed: 1\n";
    const order = ["id", "title", "seed"];
    const longer = editedYaml(text, { kind: "set", path: ["title"], value: "x: y", order });
    expect(longer).toBe('id: a\ntitle: "x: y"\n# the seed\nseed: 1\n');
    expect(editedYaml(longer, { kind: "remove", path: ["title"] })).toBe(text);
  });

  it("says after any edit what the edited value says, comments of other lines kept", () => {
    const additions: unknown[] = ["text, [with] signs: # and", 0.5, true, [], { a: [1, { b: "x" }] }];
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.nat(), fc.nat(4), fc.nat(3), (text, at, addition, kind) => {
        const value = valueIn(text);
        const paths = pathsOf(value);
        const path = paths[at % paths.length] as Path;
        const parent = inside(value, path.slice(0, -1));
        const edits: Edit[] = [
          { kind: "set", path, value: additions[addition] },
          { kind: "remove", path },
          {
            kind: "set",
            path: [...path.slice(0, -1), Array.isArray(parent) ? parent.length : "new_field"],
            value: additions[addition],
          },
          Array.isArray(parent)
            ? { kind: "raise", path: [...path.slice(0, -1), Math.max(1, Number(path.at(-1)))] }
            : { kind: "rename", path, to: "new_name" },
        ];
        const edit = edits[kind] as Edit;
        if (edit.kind === "raise" && (parent as unknown[]).length < 2) return;
        const next = editedYaml(text, edit);
        expect(valueIn(next)).toEqual(edited(value, edit));
        const comments = (all: string) => all.split("\n").filter((line) => line.startsWith("#"));
        // Only what stands within a part that goes may go with it.
        if (kind !== 1 && path.length > 1) expect(comments(next)).toEqual(comments(text));
      }),
      { numRuns: 150, seed: 7 },
    );
  });

  it("is left alone where it is no YAML, and written anew without references where one is edited", () => {
    expect(editedYaml("a: [", { kind: "set", path: ["a"], value: 1 })).toBe("a: [");
    const text = "a: &x { b: 1 }\nc: *x\n";
    expect(valueIn(editedYaml(text, { kind: "set", path: ["c", "b"], value: 2 }))).toEqual({
      a: { b: 1 },
      c: { b: 2 },
    });
  });
});
