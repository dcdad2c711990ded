import type * as v from "valibot";
import { type Document, isMap, isNode, isScalar, LineCounter, type Node, parseDocument } from "yaml";
import { check } from "../core/check.ts";
import { decode } from "./decode.ts";
import type { IssueLog } from "./issues.ts";
import type { InputFile } from "./model.ts";
import { suggestion } from "./nearest.ts";
import { unknownFields } from "./schema-fields.ts";

type Path = readonly (string | number)[];

/** Writes one fault of a study or kit file. */
export type Fault = (path: Path, expected: string, received: unknown) => void;

/** A YAML file that fits its schema; `lineOf` says on which line a field stands. */
export interface YamlFile<Value> {
  readonly value: Value;
  readonly lineOf: (path: Path) => number;
}

const MOST_ALIASES = 50;

/**
 * Reads a YAML file (YAML 1.2, core schema: dates and `yes` stay text) and holds it against a schema.
 * @returns the value, or `null` when it has faults; each of them is an issue with its line
 */
export function readYaml<S extends v.GenericSchema>(
  file: InputFile,
  schema: S,
  issues: IssueLog,
): YamlFile<v.InferOutput<S>> | null {
  const decoded = decode(file.bytes);
  if (!decoded.ok) {
    const place = { file: file.name, row: decoded.line, column: null };
    issues.say("not_utf8", place, "text in UTF-8", decoded.received, "value_ignored");
    return null;
  }
  const lines = new LineCounter();
  const document = parseDocument(decoded.text, { version: "1.2", schema: "core", lineCounter: lines });
  const value = plainValue(file.name, document, issues);
  if (value === undefined) return null;
  const lineOf = (path: Path) => lineOfPath(document, lines, path);
  const faults = unknownFields(schema, value);
  for (const { path, known } of faults) {
    const expected = `no such field${suggestion(String(path.at(-1)), known)}`;
    issues.add("unknown_field", fieldPlace(file.name, path, lineOf), expected, path.at(-1), "value_ignored");
  }
  const checked = check(schema, value);
  if (checked.ok) return faults.length === 0 ? { value: checked.value, lineOf } : null;
  for (const fault of checked.faults) {
    if (fault.expected === "no such field") continue;
    const expected = fault.expected + quotesHint(fault.expected, fault.received);
    issues.add(
      "wrong_field",
      fieldPlace(file.name, fault.path, lineOf),
      expected,
      fault.received,
      "value_ignored",
    );
  }
  return null;
}

/** The place of a field: its line, and its path as `criteria.0.at_least`. */
export function fieldPlace(file: string, path: Path, lineOf: (path: Path) => number) {
  return { file, row: lineOf(path), column: path.join(".") || null };
}

function quotesHint(expected: string, received: unknown): string {
  const plain = typeof received === "number" || typeof received === "boolean";
  return plain && expected.startsWith("text") ? " (put it in quotes)" : "";
}

function plainValue(file: string, document: Document.Parsed, issues: IssueLog): unknown {
  for (const error of document.errors) {
    const place = { file, row: error.linePos?.[0].line ?? null, column: null };
    const [first = ""] = error.message.split(/ at line |\n/);
    issues.say("yaml_syntax", place, "valid YAML", first, "value_ignored");
  }
  if (document.errors.length > 0) return undefined;
  try {
    const value: unknown = document.toJS({ maxAliasCount: MOST_ALIASES });
    if (value !== null && value !== undefined) return value;
    issues.say("empty_file", { file, row: null, column: null }, "fields", "nothing", "value_ignored");
  } catch {
    const place = { file, row: null, column: null };
    issues.say("yaml_syntax", place, `at most ${MOST_ALIASES} aliases`, "more", "value_ignored");
  }
  return undefined;
}

/** The line of a field's name; for a field that is missing, the line of what should hold it. */
function lineOfPath(document: Document.Parsed, lines: LineCounter, path: Path): number {
  let node: unknown = document.contents;
  let line = lineOfNode(node, lines) ?? 1;
  for (const step of path) {
    const next = child(node, step);
    if (next === null) break;
    line = lineOfNode(next.key ?? next.node, lines) ?? line;
    node = next.node;
  }
  return line;
}

function child(node: unknown, step: string | number): { key: Node | null; node: unknown } | null {
  if (isMap(node)) {
    const pair = node.items.find(
      (item) => String(isScalar(item.key) ? item.key.value : item.key) === String(step),
    );
    return pair === undefined ? null : { key: isNode(pair.key) ? pair.key : null, node: pair.value };
  }
  if (isNode(node) && "items" in node && Array.isArray(node.items)) {
    const item: unknown = node.items[Number(step)];
    return item === undefined ? null : { key: null, node: item };
  }
  return null;
}

function lineOfNode(node: unknown, lines: LineCounter): number | null {
  return isNode(node) && node.range ? lines.linePos(node.range[0]).line : null;
}
