import { SOFTWARE_VERSION } from "../core/version.ts";
import { type Difference, differences } from "../evaluation/differences.ts";
import type { Evaluation } from "../evaluation/document.ts";
import { readEvaluation } from "../evaluation/read.ts";
import { writeEvaluation } from "../evaluation/write.ts";
import { readEmbeddedEvaluation, renderReport } from "../report/render-report.tsx";
import { failed } from "./io.ts";
import type { Progress } from "./progress.ts";
import { evaluateFolder } from "./read-folder.ts";

/** A document that says what it was made from. */
interface WithInputs {
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

/**
 * Holds a report against itself and, where a study folder is given, against a new evaluation.
 * @throws Refusal when there is no readable evaluation in the page, or the study can't be read
 */
export async function verifyReport(
  html: string,
  study: string | null,
  progress: Progress,
): Promise<Findings> {
  const evaluation = embedded(html);
  progress.step("drawing the page again");
  const page = await pageFinding(html, evaluation);
  progress.end();
  const software = { report: evaluation.software, now: SOFTWARE_VERSION };
  if (study === null) return { holds: page !== "different", software, page, inputs: null, numbers: null };
  const { evaluation: evaluated } = await evaluateFolder(study, progress);
  const anew = readEvaluation(JSON.parse(writeEvaluation(evaluated)));
  const inputs = inputFindings(evaluation, anew);
  const numbers = differences(withoutOrigin(evaluation), withoutOrigin(anew));
  const holds =
    page !== "different" && numbers.length === 0 && inputs.every((input) => input.state === "unchanged");
  return { holds, software, page, inputs, numbers };
}

function embedded(html: string): Evaluation {
  try {
    return readEvaluation(readEmbeddedEvaluation(html));
  } catch (error) {
    throw failed(`not a report that can be read back: ${(error as Error).message}`);
  }
}

/** Another version may have other words for the same numbers: no judgement then. */
async function pageFinding(html: string, evaluation: Evaluation): Promise<Findings["page"]> {
  if ((await renderReport(evaluation)) === html) return "same";
  return evaluation.software === SOFTWARE_VERSION ? "different" : "other_version";
}

function withoutOrigin({ software: _software, provenance: _provenance, ...rest }: Evaluation) {
  return rest;
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
