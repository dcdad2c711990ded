import type { Edit } from "../../forms/edit.ts";
import { editedYaml } from "../../forms/edited-yaml.ts";
import { pathOf } from "../../forms/labels.ts";
import { type Changed, withCell, withLine } from "../../study/csv-row.ts";
import { textFile, textOf, withFiles, withoutFile } from "../../study/folder.ts";
import type { Core } from "../core.ts";
import { workOf } from "../state.ts";

/** Changes of the open study's files. */
export function studyActions(core: Core) {
  return {
    /** Writes a text file of the study anew; typing on in the same file is one step. */
    editFile(name: string, text: string): void {
      const files = withFiles(workOf(core.get()).files, [textFile(name, text)]);
      core.amend(core.words.steps.edited(name), { files });
    },
    /** Takes an edit of a form over into the text of its file; a run of typing in one field is one step. */
    editField(name: string, edit: Edit, typing: boolean): void {
      const { files } = workOf(core.get());
      const text = textOf(files, name);
      if (text === null) return;
      const next = editedYaml(text, edit);
      if (next === text) return;
      const what = core.words.steps.editedField(name, pathOf(edit.path, core.words));
      const change = { files: withFiles(files, [textFile(name, next)]) };
      if (typing) core.amend(what, change);
      else core.step(what, change);
    },
    /** Writes one cell of a table anew. */
    editCell(name: string, row: number, column: number, cell: string): void {
      rewrite(core, name, row, (text) => withCell(text, row, column, cell));
    },
    /** Writes the text of one row of a table anew, for a row that has not the columns of its table. */
    editRow(name: string, row: number, line: string): void {
      rewrite(core, name, row, (text) => withLine(text, row, line));
    },
    removeFile(name: string): void {
      const { files } = workOf(core.get());
      core.step(core.words.steps.removed(name), { files: withoutFile(files, name) });
    },
    /** Puts the study away; it can be brought back by undo. */
    closeStudy(): void {
      core.set({ view: "study", shown: null, reading: null, trouble: null });
      core.step(core.words.steps.closed, { files: new Map(), explored: [], title: "study" });
    },
  };
}

/** A changed row is one step, named by its place. */
function rewrite(core: Core, name: string, row: number, change: (text: string) => Changed | null): void {
  const { files } = workOf(core.get());
  const text = textOf(files, name);
  const changed = text === null ? null : change(text);
  if (changed === null || changed.text === text) return;
  const what = core.words.steps.editedRow(name, row, changed.column);
  core.step(what, { files: withFiles(files, [textFile(name, changed.text)]) });
}
