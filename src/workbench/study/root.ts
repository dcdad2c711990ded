import type { InputFile } from "../../records/model.ts";
import { STUDY_FILE } from "../../records/study-file.ts";
import { plainName } from "./folder.ts";

const READABLE = /\.(ya?ml|csv|tsv|txt)$/i;
/** Parts of a path that hold no records: hidden files, what spreadsheets and archives leave, our own reports. */
const NO_RECORDS = /(^|\/)(\.[^/]*|__MACOSX|node_modules|fourfold-report)(\/|$)/;

/** What was taken of the files that someone opened. */
export interface Taken {
  /** Name of the folder, `null` where loose files came. */
  readonly title: string | null;
  /** Whether there is a study file among them, so that they are a study and not additions to one. */
  readonly whole: boolean;
  /** Relative to the folder of the study file. */
  readonly files: readonly InputFile[];
  readonly leftOut: readonly string[];
}

/**
 * Which of the opened files belong to the study: those beside and below the study file that stands
 * highest; without a study file all that look like records. Texts of other kinds are left out, named.
 */
export function takeStudy(opened: readonly InputFile[]): Taken {
  const files = opened.map((file) => ({ ...file, name: plainName(file.name) }));
  const root = rootOf(files);
  const below = (name: string) => (root === null || name.startsWith(root)) && !NO_RECORDS.test(name);
  const taken = files.filter(({ name }) => below(name) && READABLE.test(name));
  const leftOut = files.filter((file) => !taken.includes(file)).map(({ name }) => name);
  const within = (name: string) => name.slice((root ?? commonFolder(taken)).length);
  return {
    title: titleOf(root ?? commonFolder(files)),
    whole: root !== null,
    files: taken.map(({ name, bytes }) => ({ name: within(name), bytes })),
    leftOut,
  };
}

/** The folder of the highest study file, with its `/`; `null` without one. */
function rootOf(files: readonly InputFile[]): string | null {
  const roots = files
    .filter(({ name }) => (name === STUDY_FILE || name.endsWith(`/${STUDY_FILE}`)) && !NO_RECORDS.test(name))
    .map(({ name }) => name.slice(0, -STUDY_FILE.length))
    .sort((one, other) => depth(one) - depth(other) || (one < other ? -1 : 1));
  return roots[0] ?? null;
}

/** The folder that all names begin with, with its `/`; empty where there is none. */
function commonFolder(files: readonly InputFile[]): string {
  const first = files[0]?.name.split("/").slice(0, -1) ?? [];
  const shared = first.findIndex(
    (_, place) => !files.every(({ name }) => name.startsWith(`${first.slice(0, place + 1).join("/")}/`)),
  );
  const parts = shared === -1 ? first : first.slice(0, shared);
  return parts.length === 0 ? "" : `${parts.join("/")}/`;
}

function titleOf(folder: string): string | null {
  return folder.split("/").filter(Boolean).at(-1) ?? null;
}

const depth = (folder: string) => folder.split("/").length;
