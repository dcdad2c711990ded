import type { InputFile } from "../../records/model.ts";

/** A study folder held in memory: bytes by name, names relative to the folder with `/`. Never changed in place. */
export type StudyFolder = ReadonlyMap<string, Uint8Array>;

export const NO_FILES: StudyFolder = new Map();

/** A folder of these files; of two with one name the later counts. */
export function folderOf(files: readonly InputFile[]): StudyFolder {
  return withFiles(NO_FILES, files);
}

/** The folder with files added or replaced; the bytes of the others are shared, not copied. */
export function withFiles(folder: StudyFolder, files: readonly InputFile[]): StudyFolder {
  return new Map([...folder, ...files.map(({ name, bytes }) => [plainName(name), bytes] as const)]);
}

export function withoutFile(folder: StudyFolder, name: string): StudyFolder {
  return new Map([...folder].filter(([one]) => one !== name));
}

/** The folder's files in their order, as the readers take them. */
export function filesOf(folder: StudyFolder): InputFile[] {
  return [...folder].map(([name, bytes]) => ({ name, bytes }));
}

/** A text file of the folder in UTF-8; `null` where there is none of this name. */
export function textOf(folder: StudyFolder, name: string): string | null {
  const bytes = folder.get(name);
  return bytes === undefined ? null : new TextDecoder().decode(bytes);
}

export function textFile(name: string, text: string): InputFile {
  return { name, bytes: new TextEncoder().encode(text) };
}

export function sizeOf(folder: StudyFolder): number {
  return [...folder.values()].reduce((total, bytes) => total + bytes.length, 0);
}

/** One spelling of a name: `/` between folders, no `./` at the start. */
export function plainName(name: string): string {
  return name.replaceAll("\\", "/").replace(/^(\.\/)+/, "");
}
