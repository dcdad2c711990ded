import { Document, isMap, isScalar, isSeq, type Node, parseDocument, Scalar } from "yaml";
import { type Edit, type Path, placeOf } from "./edit.ts";
import { YAML } from "./yaml-dialect.ts";
import { type Collection, collectionAt, nodeAt, pairOf } from "./yaml-nodes.ts";

/** A piece of the text, by its places, and what stands there instead. */
interface Cut {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/**
 * The text with only the place of the edit written anew; `null` where the place is none that can be cut out.
 * The caller holds the result against the value that the edit should give.
 */
export function splice(text: string, edit: Edit): string | null {
  const root = parseDocument(text, YAML).contents;
  const cut = cutOf(text, root, edit);
  return cut === null ? null : text.slice(0, cut.from) + cut.text + text.slice(cut.to);
}

function cutOf(text: string, root: unknown, edit: Edit): Cut | null {
  const { path } = edit;
  const parent = collectionAt(root, path.slice(0, -1));
  const name = path.at(-1);
  if (parent === null || name === undefined) return null;
  if (edit.kind === "set") {
    const there = nodeAt(root, path);
    if (isPlain(there) && !isComposite(edit.value)) return scalarCut(there, edit.value);
    if (parent.items.length === 0 && path.length > 1) return cutOf(text, root, begunWith(edit, parent));
    if (parent.flow) return flowCut(text, parent, edit);
    return hasName(parent, name) ? replaceCut(text, parent, edit) : insertCut(text, parent, edit);
  }
  if (edit.kind === "rename") {
    const key = isMap(parent) ? pairOf(parent, String(name))?.key : null;
    return isScalar(key) ? scalarCut(key, edit.to) : null;
  }
  if (parent.flow) return flowCut(text, parent, edit);
  if (edit.kind === "remove") return removeCut(text, root, path);
  return edit.kind === "raise" ? raiseCut(text, parent, Number(name)) : null;
}

/** The first field or item of empty brackets: they are written anew with it. */
function begunWith(edit: Extract<Edit, { kind: "set" }>, parent: Collection): Edit {
  const name = edit.path.at(-1) as string | number;
  const value = isMap(parent) ? { [name]: edit.value } : [edit.value];
  return { kind: "set", path: edit.path.slice(0, -1), value };
}

/** One scalar for another, quoted as the one before. */
function scalarCut(node: Scalar, value: unknown): Cut | null {
  if (!node.range) return null;
  const next = new Scalar(value);
  if (typeof value === "string" && node.type !== undefined) next.type = node.type;
  // Within brackets and braces a comma or bracket would end a plain text.
  if (typeof value === "string" && /[,[\]{}]/.test(value)) next.type = Scalar.QUOTE_DOUBLE;
  return { from: node.range[0], to: node.range[1], text: written(next, 0) };
}

/** A collection in brackets or braces is written anew, on one line. */
function flowCut(text: string, parent: Collection, edit: Edit): Cut | null {
  if (!parent.range) return null;
  const [from, to] = parent.range;
  const tree = parseDocument(text.slice(from, to), YAML);
  const name = edit.path.at(-1) as string | number;
  const { contents } = tree;
  if (edit.kind === "remove") tree.delete(name);
  else if (edit.kind === "set" && isMap(contents) && !contents.has(name)) {
    const names = contents.items.map(({ key }) => String(key));
    const pair = tree.createPair(String(name), edit.value);
    contents.items.splice(
      placeOf(names, String(name), edit.order ?? []),
      0,
      pair as (typeof contents.items)[number],
    );
  } else if (edit.kind === "set") tree.set(name, tree.createNode(edit.value));
  else if (edit.kind === "raise" && isSeq(contents)) swap(contents.items, Number(name));
  else return null;
  const padded = /^[[{]\s/.test(text.slice(from, to));
  return {
    from,
    to,
    text: String(tree.toString({ lineWidth: 0, flowCollectionPadding: padded })).trimEnd(),
  };
}

/** An item and the one before it change places. */
function swap<Item>(items: Item[], place: number): void {
  const [upper, lower] = items.slice(place - 1, place + 1);
  if (upper !== undefined && lower !== undefined) items.splice(place - 1, 2, lower, upper);
}

/** A new field or item of a block collection stands on lines of its own, after the one before it. */
function insertCut(text: string, parent: Collection, edit: Extract<Edit, { kind: "set" }>): Cut | null {
  const name = edit.path.at(-1) as string | number;
  const names = isMap(parent) ? parent.items.map(({ key }) => String(key)) : [];
  const place = isMap(parent) ? placeOf(names, String(name), edit.order ?? []) : parent.items.length;
  const beside = spanOf(text, parent, Math.max(0, place - 1));
  if (beside === null) return null;
  const indent = " ".repeat(beside.column);
  const first = parent.items[0];
  const flow = isMap(first) && parent.items.every((item) => isMap(item) && item.flow === true);
  const content = isSeq(parent)
    ? `- ${written(nodeOf(edit.value, flow), beside.column + 2)}`
    : written(nodeOf({ [name]: edit.value }, false), beside.column);
  if (place === 0) return { from: beside.from, to: beside.from, text: `${content}\n${indent}` };
  const gap = text.slice(0, beside.end).endsWith("\n") ? "" : "\n";
  return { from: beside.end, to: beside.end, text: `${gap}${indent}${content}\n` };
}

/** The field or item gets another value, of another form than before. */
function replaceCut(text: string, parent: Collection, edit: Extract<Edit, { kind: "set" }>): Cut | null {
  const name = edit.path.at(-1) as string | number;
  const place = isMap(parent)
    ? parent.items.findIndex(({ key }) => String(key) === String(name))
    : Number(name);
  const span = spanOf(text, parent, place);
  if (span === null) return null;
  const content = isSeq(parent)
    ? written(nodeOf(edit.value, false), span.column + 2)
    : written(nodeOf({ [name]: edit.value }, false), span.column);
  const dash = isSeq(parent) ? "- " : "";
  return { from: span.from, to: span.end, text: `${dash}${content}\n` };
}

/** A collection that loses its last item is written as empty brackets. */
function removeCut(text: string, root: unknown, path: Path): Cut | null {
  const parent = collectionAt(root, path.slice(0, -1));
  const name = path.at(-1) as string | number;
  if (parent === null) return null;
  if (parent.items.length === 1) {
    return cutOf(text, root, { kind: "set", path: path.slice(0, -1), value: isMap(parent) ? {} : [] });
  }
  const place = isMap(parent)
    ? parent.items.findIndex(({ key }) => String(key) === String(name))
    : Number(name);
  const span = spanOf(text, parent, place);
  if (span === null) return null;
  const lineStart = text.lastIndexOf("\n", span.from - 1) + 1;
  if (text.slice(lineStart, span.from).trim() === "") return { from: lineStart, to: span.end, text: "" };
  // The first field of an item stands on the item's own line: the next one takes its place.
  const next = spanOf(text, parent, place + 1);
  return next === null ? null : { from: span.from, to: next.from, text: "" };
}

function raiseCut(text: string, parent: Collection, place: number): Cut | null {
  const upper = spanOf(text, parent, place - 1);
  const lower = spanOf(text, parent, place);
  if (upper === null || lower === null || !isSeq(parent)) return null;
  const between = text.slice(upper.end, lower.from);
  const last = text.slice(lower.from, lower.end);
  const ended = last.endsWith("\n") ? last : `${last}\n`;
  return { from: upper.from, to: lower.end, text: ended + between + text.slice(upper.from, upper.end) };
}

interface Span {
  /** Where the field's name or the item's dash stands. */
  readonly from: number;
  /** Behind the line on which it ends. */
  readonly end: number;
  readonly column: number;
}

function spanOf(text: string, parent: Collection, place: number): Span | null {
  const item = parent.items[place];
  const node = isMap(parent) ? parent.items[place]?.key : (item as Node | undefined);
  const last = isMap(parent) ? (parent.items[place]?.value ?? node) : node;
  if (!node?.range || !last?.range) return null;
  const from = isMap(parent) ? node.range[0] : text.lastIndexOf("-", node.range[0] - 1);
  if (isSeq(parent) && !/^-\s+$/.test(text.slice(from, node.range[0]))) return null;
  const lineStart = text.lastIndexOf("\n", from - 1) + 1;
  return { from, end: lineEnd(text, last.range[1]), column: from - lineStart };
}

function lineEnd(text: string, from: number): number {
  if (text[from - 1] === "\n") return from;
  const end = text.indexOf("\n", from);
  return end === -1 ? text.length : end + 1;
}

function hasName(parent: Collection, name: string | number): boolean {
  return isMap(parent) ? pairOf(parent, String(name)) !== undefined : Number(name) < parent.items.length;
}

/** A scalar that is no block of lines. */
function isPlain(node: Node | null): node is Scalar {
  return isScalar(node) && node.type !== "BLOCK_LITERAL" && node.type !== "BLOCK_FOLDED";
}

function isComposite(value: unknown): boolean {
  return typeof value === "object" && value !== null;
}

function nodeOf(value: unknown, flow: boolean): Node {
  const node = new Document(null, YAML).createNode(value);
  if (flow && (isMap(node) || isSeq(node))) node.flow = true;
  return node;
}

/** A node as text, its further lines begun at a column. */
function written(node: Node, column: number): string {
  const tree = new Document(null, YAML);
  tree.contents = node as never;
  const lines = tree.toString({ lineWidth: 0 }).trimEnd().split("\n");
  return lines
    .map((line, place) => (place === 0 || line === "" ? line : " ".repeat(column) + line))
    .join("\n");
}
