import { createHash } from "node:crypto";
import { constants } from "node:fs";
import { open, realpath, stat } from "node:fs/promises";
import { dirname, join, resolve, sep } from "node:path";
import type { InputFile } from "../records/model.ts";
import { isMissing, standsAt } from "./files.ts";
import { failed, type Io, wrongUsage } from "./io.ts";

/** Node can't hold a larger file in one piece. */
const LARGEST = 2 ** 31 - 1;

/** A study folder's path from what the user typed. Refuses what is not a folder. */
export async function findFolder(io: Io, typed: string): Promise<string> {
  const folder = resolve(io.folder, typed);
  try {
    if ((await stat(folder)).isDirectory()) return folder;
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw wrongUsage(`no such folder: ${typed}`);
  }
  throw wrongUsage(`not a folder: ${typed}`);
}

/**
 * Reads one file of a study folder. Only plain files inside the folder: no link, no way out.
 *
 * @param name relative to the folder, with `/`
 * @returns `null` when there is no such file
 */
export async function readInside(folder: string, name: string): Promise<InputFile | null> {
  const path = join(folder, ...name.split("/"));
  const found = await standsAt(path);
  if (found === null) return null;
  if (found.isSymbolicLink()) throw failed(`${name}: a link; only files inside the study folder are read`);
  if (!found.isFile()) throw failed(`${name}: not a file`);
  await refuseWayOut(folder, path, name);
  if (found.size > LARGEST) throw failed(`${name}: larger than 2 GB; split the study by site`);
  const file = await open(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  try {
    return { name, bytes: await file.readFile() };
  } finally {
    await file.close();
  }
}

/** A folder on the way may be a link, too: where the file really is decides. */
async function refuseWayOut(folder: string, path: string, name: string): Promise<void> {
  const [root, place] = await Promise.all([realpath(folder), realpath(dirname(path))]);
  if (place !== root && !place.startsWith(root + sep)) {
    throw failed(`${name}: leads out of the study folder`);
  }
}

export function sha256Of(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}
