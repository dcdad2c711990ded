import { withFiles } from "../../study/folder.ts";
import { mappedStudy } from "../../study/mapping/mapped-study.ts";
import type { Mapping } from "../../study/mapping/mapping.ts";
import type { TablePreview } from "../../study/mapping/table-preview.ts";
import type { Core } from "../core.ts";
import { workOf } from "../state.ts";

/** Saying what the columns of a table are, and making a study of it. */
export function mappingActions(core: Core) {
  const { steps } = core.words;
  return {
    /** Keeps what was said of a table so far; typing on in one field is one step. */
    sayOfTable(mapping: Mapping, what: string, typing: boolean): void {
      const drafts = { ...workOf(core.get()).drafts, mapping: JSON.stringify(mapping) };
      if (typing) core.amend(steps.mapping(what), { drafts });
      else core.step(steps.mapping(what), { drafts });
    },
    /** Puts a study file and a kit file beside the table. */
    makeStudyOf(mapping: Mapping, preview: TablePreview): void {
      const { files, drafts } = workOf(core.get());
      const { mapping: _, ...others } = drafts;
      core.set({ view: "report", shown: null, reading: null, trouble: null });
      core.step(steps.mapped, {
        files: withFiles(files, mappedStudy(mapping, preview)),
        explored: [],
        drafts: others,
      });
    },
  };
}

/** What was said so far of a table, or `null`. */
export function mappingIn(drafts: Readonly<Record<string, string>>): Mapping | null {
  const kept = drafts.mapping;
  return kept === undefined ? null : (JSON.parse(kept) as Mapping);
}
