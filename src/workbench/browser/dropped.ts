import type { InputFile } from "../../records/model.ts";

/** The files of a list, named below their folder where a folder was chosen. */
export function filesOfList(list: Iterable<File>): Promise<InputFile[]> {
  return Promise.all([...list].map((file) => fileOf(file, file.webkitRelativePath || file.name)));
}

/** The files that were dropped, those in dropped folders included. */
export async function filesOfDrop(dropped: DataTransfer): Promise<InputFile[]> {
  // The list of items is emptied when this turn ends: take the entries first. What is no file of a disk has none.
  const given = [...dropped.items].flatMap((item) => item.webkitGetAsEntry() ?? item.getAsFile() ?? []);
  const files = await Promise.all(
    given.map((one) =>
      one instanceof File ? fileOf(one, one.name).then((file) => [file]) : filesBelow(one),
    ),
  );
  return files.flat();
}

async function filesBelow(entry: FileSystemEntry): Promise<InputFile[]> {
  if (entry instanceof FileSystemFileEntry || entry.isFile) {
    const file = await new Promise<File>((resolve, reject) =>
      (entry as FileSystemFileEntry).file(resolve, reject),
    );
    return [await fileOf(file, entry.fullPath.replace(/^\//, ""))];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const files: InputFile[] = [];
  // A reader gives a folder's entries in portions, an empty one at the end.
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (portion.length === 0) return files;
    for (const one of portion) files.push(...(await filesBelow(one)));
  }
}

async function fileOf(file: File, name: string): Promise<InputFile> {
  return { name, bytes: new Uint8Array(await file.arrayBuffer()) };
}
