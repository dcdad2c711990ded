import * as v from "valibot";

/** What a form knows of one field: its schema's shape, with what the schema says about it. */
export type Shape = Described & Kind;

interface Described {
  /** The schema's own description, else its meaning; `null` without one. */
  readonly help: string | null;
  /** Whether the field may be left out. */
  readonly optional: boolean;
  /** What counts where the field is left out; `undefined` without such a value. */
  readonly standard: unknown;
  /** Whether `null` is a value of its own. */
  readonly nullable: boolean;
}

export type Plain = string | number | boolean;

type Kind =
  | FieldsShape
  | ListShape
  | CasesShape
  | { readonly kind: "named"; readonly item: Shape }
  | { readonly kind: "choice"; readonly options: readonly Plain[] }
  | { readonly kind: "fixed"; readonly value: Plain }
  | NumberShape
  | { readonly kind: "text"; readonly day: boolean }
  | { readonly kind: "unknown" };

interface FieldsShape {
  readonly kind: "fields";
  readonly entries: readonly (readonly [name: string, shape: Shape])[];
  /** Shape of further fields under names of their own; `null` where there are none. */
  readonly rest: Shape | null;
}

interface ListShape {
  readonly kind: "list";
  readonly item: Shape;
  /** Shapes by place where each place has its own. */
  readonly places: readonly Shape[] | null;
  readonly least: number;
  readonly most: number;
}

interface CasesShape {
  readonly kind: "cases";
  readonly cases: readonly Case[];
}

/** One of several shapes that a value may have. */
export interface Case {
  /** The word that the schema tells the cases apart by, else the names of the case's fields. */
  readonly word: string;
  readonly shape: Shape;
  /** Whether a value is, or is on its way to be, of this case. */
  readonly holds: (value: unknown) => boolean;
}

interface NumberShape {
  readonly kind: "number";
  readonly whole: boolean;
  readonly least: number | null;
  readonly most: number | null;
}

/** What this file looks at of a schema: valibot's objects, seen loosely. */
interface Loose {
  readonly kind: string;
  readonly type: string;
  readonly entries?: Readonly<Record<string, Loose>>;
  readonly wrapped?: Loose;
  readonly item?: Loose;
  readonly items?: readonly Loose[];
  readonly value?: Loose;
  readonly rest?: Loose;
  readonly options?: readonly unknown[];
  readonly key?: string;
  readonly literal?: unknown;
  readonly default?: unknown;
  readonly requirement?: unknown;
  readonly description?: string;
  readonly metadata?: { readonly meaning?: string };
  readonly pipe?: readonly Loose[];
}

const shapes = new WeakMap<object, Shape>();

/** The shape of a schema. The same object for the same schema. */
export function shapeOf(schema: v.GenericSchema): Shape {
  const known = shapes.get(schema);
  if (known !== undefined) return known;
  const shape = looked(schema as unknown as Loose);
  shapes.set(schema, shape);
  return shape;
}

function looked(schema: Loose): Shape {
  const steps = schema.pipe ?? [schema];
  const inner = steps.flatMap((step) => (step.kind === "schema" && step.wrapped ? [step.wrapped] : []))[0];
  const help = helpOf(steps);
  if (inner === undefined) {
    return { help, optional: false, standard: undefined, nullable: false, ...kindOf(steps) };
  }
  const of = looked(inner);
  const type = steps[0]?.type ?? "";
  const optional = of.optional || /^(optional|exact_optional|nullish|undefinedable)$/.test(type);
  const nullable = of.nullable || /^(nullable|nullish)$/.test(type);
  const standard = steps[0]?.default ?? of.standard;
  return { ...of, help: help ?? of.help, optional, nullable, standard };
}

function helpOf(steps: readonly Loose[]): string | null {
  const said = steps.findLast((step) => step.type === "description")?.description;
  return said ?? steps.findLast((step) => step.type === "metadata")?.metadata?.meaning ?? null;
}

function kindOf(steps: readonly Loose[]): Kind {
  const [schema] = steps as readonly [Loose];
  switch (schema.type) {
    case "number":
      return numberOf(steps);
    case "string":
      return { kind: "text", day: steps.some((step) => step.type === "iso_date") };
    case "boolean":
      return { kind: "choice", options: [true, false] };
    case "picklist":
      return { kind: "choice", options: schema.options as readonly Plain[] };
    case "literal":
      return { kind: "fixed", value: schema.literal as Plain };
    case "record":
      return { kind: "named", item: looked(schema.value as Loose) };
    default:
      return compositeOf(schema, steps);
  }
}

function compositeOf(schema: Loose, steps: readonly Loose[]): Kind {
  const { entries, item, items, options } = schema;
  if (entries !== undefined) {
    const rest = schema.rest?.kind === "schema" ? looked(schema.rest) : null;
    return {
      kind: "fields",
      rest,
      entries: Object.entries(entries).map(([name, entry]) => [name, looked(entry)]),
    };
  }
  if (item !== undefined) return { kind: "list", item: looked(item), places: null, ...lengthOf(steps) };
  if (items !== undefined) {
    const places = items.map(looked);
    return { kind: "list", item: places[0] as Shape, places, least: items.length, most: items.length };
  }
  if (options === undefined) return { kind: "unknown" };
  const cases = (options as readonly Loose[]).map((option) => caseOf(option, schema.key));
  return { kind: "cases", cases };
}

function caseOf(option: Loose, key: string | undefined): Case {
  const shape = looked(option);
  const names = shape.kind === "fields" ? shape.entries.map(([name]) => name) : [];
  const mark = shape.kind === "fields" ? shape.entries.find(([name]) => name === key)?.[1] : undefined;
  if (key !== undefined && mark?.kind === "fixed") {
    return { word: String(mark.value), shape, holds: (value) => at(value, key) === mark.value };
  }
  const parses = (value: unknown) => v.safeParse(option as unknown as v.GenericSchema, value).success;
  const begun = (value: unknown) => names.some((name) => at(value, name) !== undefined);
  return { word: names.join(", ") || shape.kind, shape, holds: (value) => parses(value) || begun(value) };
}

function numberOf(steps: readonly Loose[]): NumberShape {
  const limits = (pattern: RegExp) =>
    steps.flatMap((step) => (pattern.test(step.type) ? [Number(step.requirement)] : []));
  const least = limits(/^(min_value|gt_value)$/);
  const most = limits(/^(max_value|lt_value)$/);
  return {
    kind: "number",
    whole: steps.some((step) => step.type === "integer"),
    least: least.length === 0 ? null : Math.max(...least),
    most: most.length === 0 ? null : Math.min(...most),
  };
}

function lengthOf(steps: readonly Loose[]): { readonly least: number; readonly most: number } {
  const of = (type: string) => steps.find((step) => step.type === type)?.requirement as number | undefined;
  const exact = of("length");
  return {
    least: exact ?? of("min_length") ?? 0,
    most: exact ?? of("max_length") ?? Number.POSITIVE_INFINITY,
  };
}

/** A field of a value that may be anything. */
export function at(value: unknown, name: string | number): unknown {
  return typeof value === "object" && value !== null
    ? (value as Readonly<Record<string | number, unknown>>)[name]
    : undefined;
}
