/** What a command may do to the outside. `main.ts` hands in the real one; tests hand in their own. */
export interface Io {
  /** Results: standard output. */
  out(text: string): void;
  /** Messages and progress: standard error. */
  err(text: string): void;
  /** Whether standard output takes colour. */
  readonly colour: boolean;
  /** The folder that relative paths are counted from. */
  readonly folder: string;
  /** The root of the package, where `data/` stands. */
  readonly home: string;
  /** Everything on standard input. */
  input(): Promise<Uint8Array>;
  /** Milliseconds of a steady clock. */
  now(): number;
}

/** 0: done. 1: the data or a check failed. 2: wrong usage. 70: a fault of the program (sysexits.h). */
export type ExitCode = 0 | 1 | 2 | 70;

export const DONE = 0;
export const FAILED = 1;
export const WRONG_USAGE = 2;
export const PROGRAM_FAULT = 70;

/** Stops a command with one clear message and an exit code; not a fault of the program. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  readonly code: ExitCode;

  constructor(message: string, code: ExitCode) {
    super(message);
    this.code = code;
  }
}

export const wrongUsage = (message: string) => new Refusal(message, WRONG_USAGE);
export const failed = (message: string) => new Refusal(message, FAILED);
