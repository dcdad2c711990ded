import { unzipSync, zipSync } from "fflate";
import type { InputFile } from "../../../records/model.ts";
import { type Tell, whole } from "../step.ts";

/** The earliest time that the format knows: an archive of the same files has the same bytes. */
const NO_TIME = new Date(1980, 0, 1);

/** Files as one ZIP archive. */
export async function pack(files: readonly InputFile[], tell: Tell): Promise<Uint8Array> {
  await tell(whole("packing"));
  const entries = files.map(({ name, bytes }) => [name, bytes] as const);
  return zipSync(Object.fromEntries(entries), { level: 6, mtime: NO_TIME });
}

export type Unpacked = { readonly ok: true; readonly files: readonly InputFile[] } | { readonly ok: false };

/** The files of a ZIP archive; not `ok` where it can't be read as one. */
export async function unpack(archive: Uint8Array, tell: Tell): Promise<Unpacked> {
  await tell(whole("packing"));
  try {
    const entries = Object.entries(unzipSync(archive));
    const files = entries.filter(([name]) => !name.endsWith("/")).map(([name, bytes]) => ({ name, bytes }));
    return { ok: true, files };
  } catch {
    return { ok: false };
  }
}
