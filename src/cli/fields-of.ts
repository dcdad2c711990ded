import * as v from "valibot";

/** One field of a schema, for a reader of the help. */
export interface FieldLine {
  /** Dotted; `[]` stands for each entry of a list. */
  readonly name: string;
  readonly shape: string;
  readonly unit: string | null;
  readonly meaning: string | null;
  readonly optional: boolean;
  /** What holds when an optional field is left out. */
  readonly standard: unknown;
}

/** The parts of a schema that matter here; valibot keeps them as plain properties. */
interface Node {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Node>>;
  readonly wrapped?: Node;
  readonly item?: Node;
  readonly items?: readonly Node[];
  readonly options?: readonly (Node | string | number)[];
  readonly value?: Node;
  readonly literal?: unknown;
  readonly default?: unknown;
}

/** Every field of a schema, outermost first, in the order in which the schema states them. */
export function fieldsOf(schema: v.GenericSchema): FieldLine[] {
  return linesOf(schema as unknown as Node, "", false, undefined);
}

function linesOf(node: Node, name: string, optional: boolean, standard: unknown): FieldLine[] {
  if (isWrapper(node) && node.wrapped !== undefined) {
    const left = node.type === "nullable" ? optional : true;
    return linesOf(node.wrapped, name, left, node.default ?? standard).map((line) =>
      line.name === name ? { ...line, ...spoken(node, line) } : line,
    );
  }
  if (!isLeaf(node) && node.entries !== undefined) {
    const inner = Object.entries(node.entries);
    const own = name === "" ? [] : [lineOf(node, name, optional, standard)];
    const children = inner.flatMap(([key, child]) =>
      linesOf(child, name === "" ? key : `${name}.${key}`, false, undefined),
    );
    return [...own, ...children];
  }
  const own = lineOf(node, name, optional, standard);
  if (node.type === "array" && node.item?.entries !== undefined && !isLeaf(node.item)) {
    const children = Object.entries(node.item.entries);
    return [own, ...children.flatMap(([key, child]) => linesOf(child, `${name}[].${key}`, false, undefined))];
  }
  return [own];
}

const isWrapper = (node: Node) =>
  ["optional", "nullable", "nullish", "exact_optional", "undefinedable"].includes(node.type);

/** Estimates are shown as one field: their three or five numbers are the same everywhere. */
const isLeaf = (node: Node) => unitOf(node) !== null;

function lineOf(node: Node, name: string, optional: boolean, standard: unknown): FieldLine {
  return { name, shape: shapeOf(node), unit: unitOf(node), meaning: meaningOf(node), optional, standard };
}

/** What a wrapper says for itself where the wrapped field says nothing. */
function spoken(node: Node, line: FieldLine): Pick<FieldLine, "unit" | "meaning"> {
  return { unit: line.unit ?? unitOf(node), meaning: line.meaning ?? meaningOf(node) };
}

function unitOf(node: Node): string | null {
  const unit = v.getMetadata(node as unknown as v.GenericSchema).unit;
  return typeof unit === "string" ? unit : null;
}

function meaningOf(node: Node): string | null {
  return v.getDescription(node as unknown as v.GenericSchema) ?? null;
}

const SHAPES: Readonly<Record<string, string>> = {
  number: "number",
  string: "text",
  boolean: "true or false",
  record: "a mapping",
};

function shapeOf(node: Node): string {
  if (node.entries !== undefined) return Object.keys(node.entries).join(", ");
  if (node.type === "array") return `list of ${node.item === undefined ? "values" : shapeOf(node.item)}`;
  if (node.type === "tuple" || node.type === "strict_tuple") {
    return `list of ${node.items?.length ?? 0}: ${(node.items ?? []).map(shapeOf).join("; ")}`;
  }
  if (node.type === "picklist") return (node.options ?? []).join(" | ");
  if (node.type === "literal") return JSON.stringify(node.literal);
  if (isWrapper(node) && node.wrapped !== undefined) return `${shapeOf(node.wrapped)} or null`;
  if (node.options !== undefined) return node.options.map((option) => shapeOf(option as Node)).join(" | ");
  return SHAPES[node.type] ?? node.type;
}
