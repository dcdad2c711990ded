import { NO_FILES, type StudyFolder } from "../study/folder.ts";

/** A choice of the study's plan that was changed to see what follows. */
export interface Explored {
  /** Path in the study file, entries of lists by their id, e.g. `interval.level` or `criteria.hbsag-se.at_least`. */
  readonly path: string;
  readonly value: string | number | boolean | null;
}

/** What the user made and could lose: kept over a reload, and what undo and redo go through. */
export interface Work {
  /** Name of the folder: what saved files are called after. */
  readonly title: string;
  readonly files: StudyFolder;
  /** Changes to a copy of the plan; the study file itself keeps what was planned. */
  readonly explored: readonly Explored[];
  /** Texts begun in other parts of the workbench, by part, e.g. a plan file. */
  readonly drafts: Readonly<Record<string, string>>;
}

export const NO_WORK: Work = { title: "study", files: NO_FILES, explored: [], drafts: {} };

/** Whether two pieces of work give the same evaluation. */
export function sameStudy(one: Work, other: Work): boolean {
  return one.files === other.files && one.explored === other.explored;
}
