import { checkDependence } from "../../evaluation/algorithm/check-dependence.ts";
import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import { evaluateAlgorithms } from "../../evaluation/algorithm/evaluate-algorithms.ts";
import type { Planning } from "../../evaluation/plan/document.ts";
import { evaluatePlan } from "../../evaluation/plan/evaluate-plan.ts";
import { parseAlgorithm } from "../../records/algorithm/parse-algorithm.ts";
import type { InputFile, RowIssue } from "../../records/model.ts";
import { parsePlan, readPlan } from "../../records/plan/parse-plan.ts";
import { renderAlgorithmFigures } from "../../report/algorithm/render-algorithm.tsx";
import { renderPlanFigures } from "../../report/plan/render-plan.tsx";
import type { RenderedFigure } from "../../report/render-figures.ts";
import { hashOf } from "./hash.ts";
import { type Tell, whole } from "./step.ts";

/** A page to be made from one file, and from the kit file that it names. */
export interface PageAsk {
  readonly kind: "plan" | "algorithms";
  readonly file: InputFile;
  readonly kit: Uint8Array | null;
}

/** A document with its charts drawn. */
export type DrawnPage = { readonly figures: readonly RenderedFigure[] } & (
  | { readonly kind: "plan"; readonly document: Planning }
  | { readonly kind: "algorithms"; readonly document: Algorithms }
);

/** What came of a file: its faults, or its page. */
export interface PageGiven {
  readonly issues: readonly RowIssue[];
  /** `null` where the file can't be read: the issues say why. */
  readonly page: DrawnPage | null;
}

let kept: { readonly key: string; readonly given: PageGiven } | null = null;

/** Reads and evaluates a file and draws the charts of its page, unless it is the last one. */
export async function drawnPage(ask: PageAsk, tell: Tell): Promise<PageGiven> {
  const key = await keyOf(ask);
  if (kept?.key === key) return kept.given;
  const given = await (ask.kind === "plan" ? drawnPlan(ask, tell) : drawnAlgorithms(ask, tell));
  kept = { key, given };
  return given;
}

async function drawnPlan({ file, kit }: PageAsk, tell: Tell): Promise<PageGiven> {
  const alone = parsePlan(file);
  if (!alone.ok) return { issues: alone.issues, page: null };
  const named = alone.value.kit;
  const kitFile = named === undefined || kit === null ? null : { name: named, bytes: kit };
  const read = readPlan(file, kitFile);
  if (!read.ok) return { issues: read.issues, page: null };
  await tell(whole("planning"));
  const files = kitFile === null ? [file] : [file, kitFile];
  const document = evaluatePlan(read.value.plan, await Promise.all(files.map(inputOf)));
  await tell(whole("drawing"));
  return {
    issues: read.issues,
    page: { kind: "plan", document, figures: await renderPlanFigures(document) },
  };
}

async function drawnAlgorithms({ file }: PageAsk, tell: Tell): Promise<PageGiven> {
  const read = parseAlgorithm(file, checkDependence);
  if (!read.ok) return { issues: read.issues, page: null };
  await tell(whole("following"));
  const document = evaluateAlgorithms(read.value, [await inputOf(file)]);
  await tell(whole("drawing"));
  const figures = await renderAlgorithmFigures(document);
  return { issues: read.issues, page: { kind: "algorithms", document, figures } };
}

async function inputOf({ name, bytes }: InputFile) {
  return { name, bytes: bytes.length, sha256: await hashOf(bytes) };
}

async function keyOf({ kind, file, kit }: PageAsk): Promise<string> {
  return JSON.stringify([kind, file.name, await hashOf(file.bytes), kit === null ? null : await hashOf(kit)]);
}
