import { ALGORITHM_FILE } from "../../records/algorithm/algorithm-file.ts";
import type { InputFile } from "../../records/model.ts";
import { PLAN_FILE } from "../../records/plan/plan-file.ts";
import { valueOfYaml } from "../forms/edited-yaml.ts";
import { at } from "../forms/shape.ts";
import type { Work } from "../state/work.ts";
import type { PageAsk } from "../work/drawn-page.ts";
import { ALGORITHM_EXAMPLE } from "./texts/algorithm-example.ts";
import { ALGORITHM_TEMPLATE } from "./texts/algorithm-template.ts";
import { PLAN_EXAMPLE } from "./texts/plan-example.ts";
import { KIT_EXAMPLE, KIT_TEMPLATE } from "./texts/plan-kits.ts";
import { PLAN_TEMPLATE } from "./texts/plan-template.ts";

/** A page that is made from one file: a study plan, or testing algorithms. */
export type DraftKind = "plan" | "algorithms";

/** The file itself, or the kit file that a plan names. */
export type DraftPart = "file" | "kit";

/** The texts that a page is made from, as they lie among the drafts. */
export interface PageDraft {
  /** Name of the file. */
  readonly name: string;
  readonly file: string;
  /** Text of the kit file; `null` where there is none. */
  readonly kit: string | null;
}

export const DRAFT_FILES: Readonly<Record<DraftKind, string>> = {
  plan: PLAN_FILE,
  algorithms: ALGORITHM_FILE,
};

/** What a page can begin with. */
export type Beginning = "template" | "example";

export const BEGINNINGS: Readonly<Record<DraftKind, Readonly<Record<Beginning, PageDraft>>>> = {
  plan: {
    template: { name: PLAN_FILE, file: PLAN_TEMPLATE, kit: KIT_TEMPLATE },
    example: { name: PLAN_FILE, file: PLAN_EXAMPLE, kit: KIT_EXAMPLE },
  },
  algorithms: {
    template: { name: ALGORITHM_FILE, file: ALGORITHM_TEMPLATE, kit: null },
    example: { name: ALGORITHM_FILE, file: ALGORITHM_EXAMPLE, kit: null },
  },
};

type Drafts = Work["drafts"];

/** The texts of a page; `null` where none was begun. */
export function pageDraftOf(drafts: Drafts, kind: DraftKind): PageDraft | null {
  const file = drafts[kind];
  if (file === undefined) return null;
  return { name: drafts[`${kind}/name`] ?? DRAFT_FILES[kind], file, kit: drafts[`${kind}/kit`] ?? null };
}

/** The drafts with the texts of a page put among them, or taken away. */
export function withPageDraft(drafts: Drafts, kind: DraftKind, draft: PageDraft | null): Drafts {
  const others = Object.entries(drafts).filter(([place]) => place !== kind && !place.startsWith(`${kind}/`));
  const kit = draft === null || draft.kit === null ? [] : [[`${kind}/kit`, draft.kit] as const];
  const own = draft === null ? [] : [[kind, draft.file] as const, [`${kind}/name`, draft.name] as const];
  return Object.fromEntries([...others, ...own, ...kit]);
}

/** Two drafts with the same key give the same page. */
export function draftKey({ name, file, kit }: PageDraft): string {
  return JSON.stringify([name, file, kit]);
}

/** The name under which a plan asks for its kit file; `null` where it asks for none. */
export function kitNameOf({ file }: PageDraft): string | null {
  const named = at(valueOfYaml(file)?.value, "kit");
  return typeof named === "string" ? named : null;
}

/** What the worker is asked for a page. */
export function pageAsk(kind: DraftKind, { name, file, kit }: PageDraft): PageAsk {
  return { kind, file: inputFile(name, file), kit: kit === null ? null : bytesOf(kit) };
}

function inputFile(name: string, text: string): InputFile {
  return { name, bytes: bytesOf(text) };
}

function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

const MARKS: Readonly<Record<DraftKind, RegExp>> = {
  plan: /fourfold-plan\//,
  algorithms: /fourfold-algorithm/,
};

/** The texts of a page among opened files; `null` where none of them is its file. A kit file may be beside it. */
export function draftFrom(
  kind: DraftKind,
  files: readonly InputFile[],
  before: PageDraft | null,
): PageDraft | null {
  const texts = files.map(({ name, bytes }) => ({
    name: name.split("/").at(-1) ?? name,
    text: textOf(bytes),
  }));
  const file =
    texts.find(({ text }) => MARKS[kind].test(text)) ?? texts.find(({ name }) => name === DRAFT_FILES[kind]);
  const kit =
    kind === "plan" ? texts.find((one) => one !== file && /fourfold-kit\//.test(one.text)) : undefined;
  if (file === undefined) return kit === undefined || before === null ? null : { ...before, kit: kit.text };
  return { name: file.name, file: file.text, kit: kit?.text ?? null };
}

/** A byte order mark stays: the page says which bytes it was made from. */
function textOf(bytes: Uint8Array): string {
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
}
