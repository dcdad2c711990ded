import type { Severity } from "../model.ts";

/** One rule of the catalogue. */
export interface Rule {
  readonly severity: Severity;
  /** What was found, in one line. */
  readonly meaning: string;
  /** What to do about it. */
  readonly fix: string;
}

/** Writes the entries of a catalogue: severity, meaning, fix. */
export function rule(severity: Severity, meaning: string, fix: string): Rule {
  return { severity, meaning, fix };
}
