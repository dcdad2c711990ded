import { readCsv, type Wanted } from "./csv.ts";
import type { IssueLog } from "./issues.ts";
import type { InputFile } from "./model.ts";
import { suggestion } from "./nearest.ts";
import type { Table } from "./table.ts";

/** Opens a table by the name that the study file gives it; `null`, with an issue, where it can't. */
export type OpenTable = (name: string, wanted: Wanted) => Table | null;

/** A file of the folder by name; `./` at the start and `\` for `/` do not matter. */
export function fileFinder(files: readonly InputFile[]): (name: string) => InputFile | null {
  const byName = new Map(files.map((file) => [plainName(file.name), file]));
  return (name) => byName.get(plainName(name)) ?? null;
}

function plainName(name: string): string {
  return name.replaceAll("\\", "/").replace(/^(\.\/)+/, "");
}

export function tableOpener(files: readonly InputFile[], issues: IssueLog): OpenTable {
  const find = fileFinder(files);
  return (name, wanted) => {
    const file = find(name);
    if (file !== null) return readCsv(file, wanted, issues);
    const names = files.map((entry) => entry.name);
    const place = { file: name, row: null, column: null };
    issues.say(
      "missing_file",
      place,
      `a file of this name${suggestion(name, names)}`,
      "no such file",
      "row_set_aside",
    );
    return null;
  };
}
