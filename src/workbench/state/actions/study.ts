import { textFile, withFiles, withoutFile } from "../../study/folder.ts";
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
