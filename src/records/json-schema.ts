import { type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import type * as v from "valibot";
import { KitSchema } from "./kit.ts";
import { StudySchema } from "./study.ts";

/**
 * JSON Schema (draft-07) of `study.yaml`, for editors that complete and check while one writes.
 * Checks between fields have no counterpart in JSON Schema and are left out: what it accepts may
 * still have faults that reading finds; what it refuses, reading refuses too.
 */
export function studyJsonSchema(): JsonSchema {
  const about = "What was planned: study.yaml of a study folder.";
  const oneOf = [{ required: ["kit"] }, { required: ["kits"] }];
  return { ...written(StudySchema, "Fourfold study file", about), oneOf };
}

/** JSON Schema (draft-07) of a kit file. As `studyJsonSchema`. */
export function kitJsonSchema(): JsonSchema {
  return written(KitSchema, "Fourfold kit file", "What the maker's instructions say about one kit.");
}

function written(schema: v.GenericSchema, title: string, description: string): JsonSchema {
  const { $schema, ...rest } = toJsonSchema(schema, {
    typeMode: "input",
    ignoreActions: ["check"],
    overrideSchema: ({ valibotSchema }) => fixedKeys(valibotSchema as unknown as RecordOfWords),
  });
  return { ...($schema === undefined ? {} : { $schema }), title, description, ...rest };
}

/** What is looked at of a valibot record whose keys are a few words. */
export interface RecordOfWords {
  readonly type: string;
  readonly key?: { readonly type?: string; readonly options?: readonly string[] };
  readonly value?: v.GenericSchema;
}

/** A mapping whose keys are a few words is, in JSON Schema, an object of just these properties. */
export function fixedKeys(schema: RecordOfWords): JsonSchema | null {
  if (schema.type !== "record" || schema.key?.type !== "picklist" || schema.value === undefined) return null;
  const { $schema, ...value } = toJsonSchema(schema.value, { typeMode: "input", ignoreActions: ["check"] });
  const properties = Object.fromEntries((schema.key.options ?? []).map((key) => [key, value]));
  return { type: "object", properties, additionalProperties: false };
}
