import { count } from "../../../report/formats.ts";
import type { JobStep } from "../../work/step.ts";

/** Words of the column at the side: what is open, what is being done, what can be undone. */
export const bench = {
  pageTitle: "Fourfold workbench",
  noScript: "The workbench computes in this page and needs scripts to do so. The report itself needs none.",
  cannotStart: "The workbench can't start in this browser; a current version of any common browser will do.",
  name: "Fourfold",
  place: "Workbench. Nothing leaves this machine.",
  skip: "Skip to the page",
  parts: "Parts of the workbench",
  beside: (part: string) => `${part}: choices`,
  status: {
    noStudy: "none open",
    noReport: "none yet",
    files: (files: number, title: string) => `${title}, ${counted(files, "file", "files")}`,
    reading: "reading …",
    notReadable: "can't be read yet",
    faults: (errors: number, warnings: number) =>
      errors + warnings === 0
        ? "no fault found"
        : `${counted(errors, "error", "errors")}, ${counted(warnings, "warning", "warnings")}`,
    earlier: "of what stood before the last change",
    stands: "stands",
    verdicts: (parts: readonly { readonly word: string; readonly count: number }[]) =>
      parts.map((part) => `${part.count} ${part.word}`).join(", "),
    toSave: "report, numbers, charts, files",
  },
  steps: {
    reading: "Reading the files",
    evaluating: "Computing",
    drawing: "Drawing the charts",
    writing: "Writing the report",
    packing: "Packing",
    planning: "Planning",
    following: "Following the algorithms",
    computing: "Computing",
  } satisfies Record<JobStep["step"], string>,
  progress: (words: string, done: number | null, of: number | null) =>
    done === null || of === null ? `${words} …` : `${words}, ${count(done)} of ${count(of)}`,
  stop: "Stop",
  stopped: "Stopped. The page shows what stood before.",
  again: "Compute again",
  undo: "Undo",
  redo: "Redo",
  undoStep: (what: string) => `Undo: ${what}`,
  redoStep: (what: string) => `Redo: ${what}`,
  nothingToUndo: "Nothing to undo",
  nothingToRedo: "Nothing to redo",
  undone: (what: string) => `Undone: ${what}`,
  redone: (what: string) => `Done again: ${what}`,
  kept: {
    nothing: "Nothing is kept in this browser.",
    everything: "Kept in this browser until you wipe it.",
    without_tables: "Too large to keep whole: without the tables, a reload loses them. Save the study.",
    unable: "This browser keeps nothing: a reload loses the work. Save the study.",
  },
  wipe: "Wipe",
  wipeAsk: "Wipe everything from this page and this browser? It can't be undone.",
  wipeYes: "Yes, wipe",
  wipeNo: "Keep it",
  wiped: "Wiped. Nothing of the study is left in this browser.",
  keys: "Keys: Ctrl+Z undo, Ctrl+Shift+Z redo, Ctrl+S save, Esc stop.",
  reportStands: "The report stands.",
  notReadable: "The study can't be read yet. The list says why.",
  drop: "Drop the study folder or its files anywhere",
  listed: (names: readonly string[]) =>
    names.length <= 4 ? names.join(", ") : `${names.slice(0, 4).join(", ")} and ${names.length - 4} more`,
};

/** Names of steps, for "Undo: …". */
export const steps = {
  opened: (title: string) => `open ${title}`,
  openedDemo: "open the demonstration study",
  typed: "type a fourfold table",
  added: (names: readonly string[]) => `add ${bench.listed(names)}`,
  edited: (name: string) => `edit ${name}`,
  editedField: (name: string, field: string) => `edit ${name}: ${field}`,
  editedRow: (name: string, row: number, column: string | null) =>
    `edit ${name}, row ${count(row)}${column === null ? "" : `, ${column}`}`,
  mapped: "make a study of a table",
  mapping: (what: string) => `say what ${what} is`,
  removed: (name: string) => `remove ${name}`,
  closed: "put the study away",
};

/** What went wrong, before its detail. */
export const trouble = {
  kinds: {
    input: "That can't be computed:",
    program: "A fault of Fourfold, not of your data. Please report it:",
    nothing_readable: "None of these files holds records (YAML, CSV, TSV or text):",
    no_archive: "This is no ZIP archive that can be read:",
    not_saved: "That could not be saved:",
  },
  dismiss: "Dismiss",
};

function counted(number: number, one: string, many: string): string {
  return `${count(number)} ${number === 1 ? one : many}`;
}
