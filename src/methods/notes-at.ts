import { type Note, note } from "../core/note.ts";

/** The same note on several fields of the values. */
export function notesAt(code: string, paths: readonly string[], message: string): Note[] {
  return paths.map((path) => note(code, path, message));
}
