import { readFileSync } from "node:fs";
import { h } from "preact";
import { render } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/methods/index.ts";
import { KitSchema } from "../../src/records/kit.ts";
import { StudySchema } from "../../src/records/study.ts";
import { blankOf } from "../../src/workbench/forms/blank.ts";
import { valueOfYaml } from "../../src/workbench/forms/edited-yaml.ts";
import { SchemaForm } from "../../src/workbench/forms/schema-form.tsx";
import { type Shape, shapeOf } from "../../src/workbench/forms/shape.ts";
import { en } from "../../src/workbench/words/en.ts";
import { ROOT } from "./opened.ts";

interface Json {
  readonly properties?: Readonly<Record<string, Json>>;
  readonly required?: readonly string[];
  readonly items?: Json;
  readonly enum?: readonly unknown[];
  readonly description?: string;
  readonly oneOf?: readonly Json[];
  readonly anyOf?: readonly Json[];
}

/** Holds a shape against the published JSON Schema, which @valibot/to-json-schema made of the same schema. */
function compare(shape: Shape, json: Json, path: string): void {
  // The outermost description is of the published file.
  const said = path.includes(".") ? json.description : undefined;
  if (said !== undefined) expect(shape.help, path).toBe(said);
  if (json.properties !== undefined && shape.kind === "fields") {
    expect(shape.entries.map(([name]) => name)).toEqual(Object.keys(json.properties));
    const required = shape.entries.filter(([, entry]) => !entry.optional).map(([name]) => name);
    expect([...required].sort(), path).toEqual([...(json.required ?? [])].sort());
    for (const [name, entry] of shape.entries)
      compare(entry, json.properties[name] as Json, `${path}.${name}`);
  }
  if (json.items !== undefined && shape.kind === "list") compare(shape.item, json.items, `${path}[]`);
  if (json.enum !== undefined && shape.kind === "choice") expect(shape.options, path).toEqual(json.enum);
  const cases = json.oneOf ?? json.anyOf;
  if (cases !== undefined && shape.kind === "cases") {
    expect(shape.cases).toHaveLength(cases.length);
    shape.cases.forEach((one, place) => {
      compare(one.shape, cases[place] as Json, `${path}|${one.word}`);
    });
  }
}

const jsonOf = (file: string) => JSON.parse(readFileSync(`${ROOT}/src/records/${file}`, "utf8")) as Json;

/** Kinds of shape anywhere in a shape. */
function kindsIn(shape: Shape): string[] {
  const inner =
    shape.kind === "fields"
      ? shape.entries.flatMap(([, entry]) => kindsIn(entry))
      : shape.kind === "list" || shape.kind === "named"
        ? kindsIn(shape.item)
        : shape.kind === "cases"
          ? shape.cases.flatMap((one) => kindsIn(one.shape))
          : [];
  return [shape.kind, ...inner];
}

describe("the shape of a schema", () => {
  it("says of study and kit what the published schemas say", () => {
    compare(shapeOf(StudySchema), jsonOf("study.v1.schema.json"), "study");
    compare(shapeOf(KitSchema), jsonOf("kit.v1.schema.json"), "kit");
    expect(kindsIn(shapeOf(StudySchema))).toContain("cases");
  });

  it("knows every field of every method of the catalogue", () => {
    expect(catalogue.length).toBeGreaterThan(50);
    for (const method of catalogue) {
      expect(kindsIn(shapeOf(method.input)), method.id).not.toContain("unknown");
      expect(kindsIn(shapeOf(method.options)), method.id).not.toContain("unknown");
    }
  });

  it("begins a part with nothing chosen", () => {
    const blank = blankOf(shapeOf(StudySchema)) as Record<string, unknown>;
    expect(blank).toMatchObject({
      format: "fourfold-study/1",
      status: null,
      interval: { method: null, level: null },
    });
    expect(blank).not.toHaveProperty("criteria");
  });
});

describe("a form", () => {
  const kit = valueOfYaml(readFileSync(`${ROOT}/data/demo/kit.yaml`, "utf8"))?.value as Record<
    string,
    unknown
  >;
  const form = (value: unknown, quiet = false) =>
    render(h(SchemaForm, { id: "kit", schema: KitSchema, value, words: en, onEdit: () => undefined, quiet }));

  it("shows every value, its help, and no fault where there is none", () => {
    const html = form(kit);
    expect(html).toContain(`value="${kit.id}"`);
    expect(html).toContain("smallest intensity that counts as a visible line, by line".slice(0, 20));
    expect(html).not.toContain("form-fault");
    expect(html).toContain("Volume, µl");
  });

  it("shows a fault at its field, in the schema's words, and tells the field's input of it", () => {
    const html = form({ ...kit, repeat: { max_attempts: 0 }, colour: "red" });
    const input = html.match(/<input[^>]*id="kit-repeat-max_attempts"[^>]*>/)?.[0] ?? "";
    expect(input).toContain('aria-invalid="true"');
    expect(input).toContain('aria-describedby="kit-repeat-max_attempts-fault"');
    expect(html).toContain("colour: no such field.");
    expect(form({ ...kit, repeat: { max_attempts: 0 } }, true)).not.toContain("form-fault");
  });

  it("gives every input a name", () => {
    const html = form(kit);
    const ids = [...html.matchAll(/<(?:input|select)[^>]*\sid="([^"]+)"([^>]*)>/g)];
    expect(ids.length).toBeGreaterThan(15);
    for (const [tag, id] of ids) {
      expect([id, html.includes(`for="${id}"`) || /aria-label/.test(tag)]).toEqual([id, true]);
    }
    expect(new Set(ids.map(([, id]) => id)).size).toBe(ids.length);
  });
});
