import type { Saved, WriteInto } from "../state/core.ts";

const TYPES: Readonly<Record<string, string>> = {
  html: "text/html",
  json: "application/json",
  svg: "image/svg+xml",
  png: "image/png",
  zip: "application/zip",
  csv: "text/csv",
};

/** Hands one file to the user. */
export function download({ name, content }: Saved): void {
  const type = TYPES[name.split(".").at(-1) ?? ""] ?? "text/plain";
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name.split("/").at(-1) ?? name;
  link.click();
  // The browser reads the file after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** The part of the File System Access API that writing needs; absent from TypeScript's own types. */
interface WithFolders {
  showDirectoryPicker?(options: { readonly mode: "readwrite" }): Promise<FileSystemDirectoryHandle>;
}

/** Lets the user choose a folder to write into, where the browser can. */
export function folderChooser(): (() => Promise<WriteInto | null>) | undefined {
  const browser = globalThis as WithFolders;
  if (browser.showDirectoryPicker === undefined) return undefined;
  return async () => {
    try {
      const folder = await browser.showDirectoryPicker?.({ mode: "readwrite" });
      return folder === undefined ? null : (files) => writeAll(folder, files);
    } catch (error) {
      if (error instanceof DOMException && error.name === "AbortError") return null;
      throw error;
    }
  };
}

async function writeAll(folder: FileSystemDirectoryHandle, files: readonly Saved[]): Promise<void> {
  for (const { name, content } of files) {
    const parts = name.split("/");
    let place = folder;
    for (const part of parts.slice(0, -1)) place = await place.getDirectoryHandle(part, { create: true });
    const file = await place.getFileHandle(parts.at(-1) ?? name, { create: true });
    const writing = await file.createWritable();
    await writing.write(content as FileSystemWriteChunkType);
    await writing.close();
  }
}
