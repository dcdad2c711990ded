import type { Note } from "../../core/note.ts";
import type { Shared } from "../context.ts";

/**
 * Why a value is absent, or what to mind: the methods' own words. What is said of several values in
 * like words is said once.
 */
export function Notes({ report, notes }: { report: Shared; notes: readonly Note[] }) {
  const { grammar, page } = report.words;
  const codes = [...new Set(notes.map((note) => note.code))];
  const messages = codes.map((code) => {
    const alike = new Set(notes.filter((note) => note.code === code).map((note) => note.message));
    const [first = ""] = alike;
    return alike.size > 1 ? page.andAlike(grammar.sentence(first), alike.size - 1) : grammar.sentence(first);
  });
  if (messages.length === 0) return null;
  return (
    <ul class="notes" aria-label={page.notes}>
      {messages.map((message) => (
        <li key={message}>{message}</li>
      ))}
    </ul>
  );
}
