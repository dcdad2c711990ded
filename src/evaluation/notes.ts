import type { Note } from "../core/note.ts";

/**
 * A method's notes under the names that the document uses. Notes on values that the document does not
 * carry are left out, and what is said twice of one place stays once.
 *
 * @param names beginning of the method's path: what it is called here
 */
export function notesUnder(notes: readonly Note[], names: Readonly<Record<string, string>>): Note[] {
  const found: Note[] = [];
  for (const { code, path, message } of notes) {
    const key = Object.keys(names).find((name) => path === name || path.startsWith(`${name}.`));
    if (key === undefined) continue;
    const here = `${names[key]}${path.slice(key.length)}`;
    if (found.some((one) => one.code === code && one.path === here)) continue;
    found.push({ code, path: here, message });
  }
  return found;
}

/** Notes moved under one place. */
export function notesAtPlace(notes: readonly Note[], place: string): Note[] {
  return notes.map((entry) => ({ ...entry, path: `${place}.${entry.path}` }));
}
