import { at, type Shape } from "../forms/shape.ts";

/** What a method gave, laid out for reading: single values, tables, and parts that hold both. */
export interface ValuePart {
  /** The name in the values; a number is a place in a list; `""` is the whole. */
  readonly name: string | number;
  readonly help: string | null;
  readonly rows: readonly ValueRow[];
  readonly tables: readonly ValueTable[];
  readonly parts: readonly ValuePart[];
}

/** A single value, an estimate or a list of single values. */
export interface ValueRow {
  readonly name: string | number;
  readonly help: string | null;
  readonly value: unknown;
}

/** A list whose entries have single values alone: one row each. */
export interface ValueTable {
  readonly name: string | number;
  readonly help: string | null;
  readonly columns: readonly { readonly name: string; readonly help: string | null }[];
  readonly rows: readonly (readonly unknown[])[];
}

/** Lays a method's values out by the shape of their schema. */
export function valueParts(shape: Shape, values: unknown): ValuePart {
  return partOf("", shape, values);
}

/** An estimate with its limits, which is one value to the reader. */
export function isEstimate(value: unknown): value is Readonly<Record<"value" | "lower" | "upper", unknown>> {
  return typeof value === "object" && value !== null && "value" in value && "lower" in value;
}

type Named = readonly [name: string | number, shape: Shape, value: unknown];

function partOf(name: string | number, shape: Shape, value: unknown): ValuePart {
  const inside = insideOf(shape, value);
  const rows = inside.filter(([, , given]) => isSingle(given));
  const rest = inside.filter(([, , given]) => !isSingle(given));
  const tables = rest.flatMap(([key, one, given]) => tableOf(key, one, given) ?? []);
  const parts = rest.filter(([key, one, given]) => tableOf(key, one, given) === null);
  return {
    name,
    help: shape.help,
    rows: rows.map(([key, one, given]) => ({ name: key, help: one.help, value: given })),
    tables,
    parts: parts.map(([key, one, given]) => partOf(key, one, given)),
  };
}

/** The named values within a value. What was left out is not among them. */
function insideOf(shape: Shape, value: unknown): Named[] {
  if (shape.kind === "cases") return insideOf(caseOf(shape, value), value);
  if (Array.isArray(value))
    return value.map((item, place) => [place, itemShape(shape, place), item] as const);
  if (typeof value !== "object" || value === null) return [];
  const known = new Map(shape.kind === "fields" ? shape.entries : []);
  return Object.entries(value).flatMap(([name, given]) =>
    given === undefined ? [] : [[name, known.get(name) ?? ofNames(shape), given] as const],
  );
}

function caseOf(shape: Extract<Shape, { kind: "cases" }>, value: unknown): Shape {
  return shape.cases.find(({ holds }) => holds(value))?.shape ?? UNKNOWN;
}

function itemShape(shape: Shape, place: number): Shape {
  return shape.kind === "list" ? (shape.places?.[place] ?? shape.item) : UNKNOWN;
}

function ofNames(shape: Shape): Shape {
  if (shape.kind === "named") return shape.item;
  return (shape.kind === "fields" ? shape.rest : null) ?? UNKNOWN;
}

const UNKNOWN: Shape = { kind: "unknown", help: null, optional: false, standard: undefined, nullable: false };

function isSingle(value: unknown): boolean {
  if (typeof value !== "object" || value === null || isEstimate(value)) return true;
  return Array.isArray(value) && value.every((item) => typeof item !== "object" || item === null);
}

function tableOf(name: string | number, shape: Shape, value: unknown): ValueTable | null {
  if (!Array.isArray(value) || value.length === 0) return null;
  const flat = value.every(
    (item) =>
      typeof item === "object" &&
      item !== null &&
      !Array.isArray(item) &&
      Object.values(item).every((one) => isSingle(one)),
  );
  if (!flat) return null;
  const names = [...new Set(value.flatMap((item: object) => Object.keys(item)))];
  const item = itemShape(shape, 0);
  const shapes = new Map(item.kind === "fields" ? item.entries : []);
  const columns = names.map((column) => ({ name: column, help: shapes.get(column)?.help ?? null }));
  return {
    name,
    help: shape.help,
    columns,
    rows: value.map((row) => names.map((column) => at(row, column))),
  };
}
