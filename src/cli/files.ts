import { randomBytes } from "node:crypto";
import type { Stats } from "node:fs";
import { lstat, mkdir, open, readdir, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Writing that leaves the old or the new, never half. Everything is written beside its place,
 * brought to the disk, and moved into place at the end.
 */
export interface NewFile {
  /** Relative to the folder, with `/`. */
  readonly name: string;
  readonly content: string | Uint8Array;
}

export type Move = (from: string, to: string) => Promise<void>;

const unique = () => randomBytes(6).toString("hex");

/** What stands at a path, links not followed; `null` where there is nothing. */
export async function standsAt(path: string): Promise<Stats | null> {
  try {
    return await lstat(path);
  } catch (error) {
    if (isMissing(error)) return null;
    throw error;
  }
}

export function isMissing(error: unknown): boolean {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  return code === "ENOENT" || code === "ENOTDIR";
}

/** Writes one file: the old one stays whole until the new one is. */
export async function writeFileWhole(
  path: string,
  content: string | Uint8Array,
  move: Move = rename,
): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${unique()}.tmp`);
  try {
    await writeToDisk(beside, content);
    await move(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
  await settle(dirname(path));
}

/**
 * Puts a folder with these files in place of the one of that name. A folder can't be exchanged in
 * one stroke: the old one is moved aside first, under a name that `restoreFolder` finds, should the
 * machine stop at that very moment.
 */
export async function writeFolderWhole(
  folder: string,
  files: readonly NewFile[],
  move: Move = rename,
): Promise<void> {
  await mkdir(dirname(folder), { recursive: true });
  await restoreFolder(folder);
  const beside = join(dirname(folder), `.${basename(folder)}.${unique()}.tmp`);
  try {
    await fillFolder(beside, files);
    await exchange(folder, beside, move);
  } catch (error) {
    await rm(beside, { recursive: true, force: true });
    throw error;
  }
  await settle(dirname(folder));
}

/** Brings back a folder that a broken run left moved aside, or clears what such a run left behind. */
export async function restoreFolder(folder: string): Promise<void> {
  const aside = setAsideName(folder);
  if ((await standsAt(aside)) === null) return;
  if ((await standsAt(folder)) === null) await rename(aside, folder);
  else await rm(aside, { recursive: true, force: true });
}

const setAsideName = (folder: string) => join(dirname(folder), `.${basename(folder)}.fourfold-old`);

async function exchange(folder: string, beside: string, move: Move): Promise<void> {
  if ((await standsAt(folder)) === null) {
    await move(beside, folder);
    return;
  }
  const aside = setAsideName(folder);
  await move(folder, aside);
  try {
    await move(beside, folder);
  } catch (error) {
    await rename(aside, folder);
    throw error;
  }
  await rm(aside, { recursive: true, force: true });
}

async function fillFolder(folder: string, files: readonly NewFile[]): Promise<void> {
  const inside = new Set(files.map((file) => dirname(join(folder, file.name))));
  await mkdir(folder);
  for (const place of inside) await mkdir(place, { recursive: true });
  await Promise.all(files.map((file) => writeToDisk(join(folder, file.name), file.content)));
  for (const place of inside) await settle(place);
}

async function writeToDisk(path: string, content: string | Uint8Array): Promise<void> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Brings the names in a folder to the disk, where the system can. */
async function settle(folder: string): Promise<void> {
  try {
    const handle = await open(folder, "r");
    await handle.sync().finally(() => handle.close());
  } catch {
    // Some systems can't open or sync a folder; the files themselves are already on the disk.
  }
}

/** Names in a folder, sorted; `null` when there is no such folder. */
export async function namesIn(folder: string): Promise<readonly string[] | null> {
  try {
    return (await readdir(folder)).sort();
  } catch (error) {
    if (isMissing(error)) return null;
    throw error;
  }
}
