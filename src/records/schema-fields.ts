import type * as v from "valibot";

/** What this file looks at of a schema: valibot's objects, seen loosely. */
interface Loose {
  readonly type?: string;
  readonly entries?: Readonly<Record<string, Loose>>;
  readonly wrapped?: Loose;
  readonly item?: Loose;
  readonly value?: Loose;
  /** What fields have that an object does not name. */
  readonly rest?: Loose;
  readonly options?: readonly Loose[];
  readonly key?: string;
  readonly literal?: unknown;
}

/** A field that the schema does not know, and the names it knows at that place. */
export interface UnknownField {
  readonly path: readonly (string | number)[];
  readonly known: readonly string[];
}

/** Every unknown field of a value, at any depth (a schema's own check stops at the first). */
export function unknownFields(schema: v.GenericSchema, value: unknown): UnknownField[] {
  const found: UnknownField[] = [];
  walk(schema as unknown as Loose, value, [], found);
  return found;
}

function walk(
  schema: Loose | undefined,
  value: unknown,
  path: readonly (string | number)[],
  found: UnknownField[],
): void {
  const shape = unwrap(schema, value);
  if (shape === undefined || typeof value !== "object" || value === null) return;
  if (Array.isArray(value)) {
    value.forEach((item, index) => {
      walk(shape.item, item, [...path, index], found);
    });
    return;
  }
  const entries = shape.entries;
  for (const [key, inner] of Object.entries(value)) {
    if (shape.type === "record") walk(shape.value, inner, [...path, key], found);
    else if (entries === undefined) continue;
    else if (Object.hasOwn(entries, key)) walk(entries[key], inner, [...path, key], found);
    else if (shape.rest !== undefined) walk(shape.rest, inner, [...path, key], found);
    else found.push({ path: [...path, key], known: Object.keys(entries) });
  }
}

/** Takes `optional` off and chooses the option of a variant that the value's key names. */
function unwrap(schema: Loose | undefined, value: unknown): Loose | undefined {
  let shape = schema;
  while (shape?.wrapped !== undefined) shape = shape.wrapped;
  if (shape?.type !== "variant" || shape.key === undefined) return shape;
  const key = shape.key;
  const chosen = typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : null;
  return shape.options?.find((option) => option.entries?.[key]?.literal === chosen);
}
