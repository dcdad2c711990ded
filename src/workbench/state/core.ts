import type { Words } from "../words/en.ts";
import type { Desk, Running } from "../work/desk.ts";
import type { Ask, Give, JobName } from "../work/jobs/index.ts";
import type { JobStep } from "../work/step.ts";
import type { State } from "./state.ts";
import type { Shelf } from "./storage.ts";
import type { Work } from "./work.ts";

/** A file on its way to the user. */
export interface Saved {
  /** Relative to a folder where several are saved, with `/`. */
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Writes files into a chosen folder. */
export type WriteInto = (files: readonly Saved[]) => Promise<void>;

/** What the store does to the outside. The page hands in the browser's; tests hand in their own. */
export interface Outside {
  readonly desk: Desk;
  readonly shelf: Shelf | null;
  /** Hands one file to the user: a download. */
  download(file: Saved): void;
  /** A folder that the user chooses to write into; `null` where none was chosen. `undefined`: not in this browser. */
  readonly chooseFolder: (() => Promise<WriteInto | null>) | undefined;
  /** An SVG text as a PNG image, at twice its size. */
  picture(svg: string): Promise<Uint8Array>;
}

/** What actions work with. */
export interface Core {
  readonly outside: Outside;
  readonly words: Words;
  get(): State;
  /** Replaces parts of the state and tells those who listen. */
  set(change: Partial<State>): void;
  /** One named step of the user's work: can be undone, is kept, and evaluated where the study changed. */
  step(what: string, change: Partial<Work>): void;
  /** As `step`, within the last step if that was called the same: a slider drawn on, a text typed on. */
  amend(what: string, change: Partial<Work>): void;
  /**
   * Runs a job that the user waits for: its steps are shown, it can be stopped, its faults are told.
   * `null` where it was stopped or came to a fault.
   */
  run<Name extends JobName>(
    job: Name,
    ask: Ask<Name>,
    first: JobStep["step"],
    started?: (running: Running<Name>) => void,
  ): Promise<Give<Name> | null>;
  /** Puts another work in its place, kept and evaluated like a step: undo, redo, what was kept. */
  place(history: State["history"]): void;
}
