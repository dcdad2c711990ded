import type { Difference } from "../evaluation/differences.ts";

/** A document that says what it was made from. */
export interface WithInputs {
  readonly provenance: { readonly inputs: readonly { readonly name: string; readonly sha256: string }[] };
}

interface InputFinding {
  readonly file: string;
  readonly state: "unchanged" | "changed" | "gone" | "new";
}

/** What was found. `null` where it was not asked or could not be compared. */
export interface Findings {
  readonly holds: boolean;
  /** Version that made the report, and the one that looks at it now. */
  readonly software: { readonly report: string; readonly now: string };
  /** The page is what this version draws from the report's own numbers. */
  readonly page: "same" | "different" | "other_version";
  readonly inputs: readonly InputFinding[] | null;
  readonly numbers: readonly Difference[] | null;
}

/** What became of each input file, by name and hash. */
export function inputFindings(was: WithInputs, is: WithInputs): InputFinding[] {
  const now = new Map(is.provenance.inputs.map((input) => [input.name, input.sha256]));
  const before = new Set(was.provenance.inputs.map((input) => input.name));
  const old = was.provenance.inputs.map(({ name, sha256 }): InputFinding => {
    const found = now.get(name);
    return { file: name, state: found === undefined ? "gone" : found === sha256 ? "unchanged" : "changed" };
  });
  const added = [...now.keys()].filter((name) => !before.has(name));
  return [...old, ...added.map((file): InputFinding => ({ file, state: "new" }))];
}

const PAGE = {
  same: "the page is what its numbers give",
  different: "the page is NOT what its numbers give: it was changed after it was made",
  other_version: "the page was made by another version of Fourfold; its words can't be compared",
} as const;
const SHOWN = 20;

/** The findings for a reader. */
export function inWords(findings: Findings): string {
  const { software, page, inputs, numbers } = findings;
  const lines = [`page: ${PAGE[page]}`];
  if (software.report !== software.now) lines.push(`made by ${software.report}, verified by ${software.now}`);
  if (inputs !== null) lines.push(...inputLines(inputs));
  if (numbers !== null) lines.push(...numberLines(numbers));
  lines.push(findings.holds ? "the report holds" : "the report does not hold");
  return `${lines.join("\n")}\n`;
}

function inputLines(inputs: readonly InputFinding[]): string[] {
  const other = inputs.filter((input) => input.state !== "unchanged");
  const lines = [`inputs: ${inputs.length - other.length} of ${inputs.length} files unchanged`];
  return [...lines, ...other.map(({ file, state }) => `  ${file}: ${state}`)];
}

function numberLines(numbers: readonly Difference[]): string[] {
  if (numbers.length === 0) return ["numbers: the same"];
  const lines = [`numbers: ${numbers.length} differ`];
  for (const { path, was, is } of numbers.slice(0, SHOWN)) {
    lines.push(`  ${path}: ${inShort(was)} in the report, ${inShort(is)} now`);
  }
  if (numbers.length > SHOWN) lines.push(`  … and ${numbers.length - SHOWN} more`);
  return lines;
}

function inShort(value: unknown): string {
  if (value === undefined) return "nothing";
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
