import type { Evaluation } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";

/** Why a value is absent, or what to mind: the methods' own words. Each is said once. */
export function Notes({ report, notes }: { report: Report; notes: Evaluation["notes"] }) {
  const messages = [...new Set(notes.map((note) => report.words.grammar.sentence(note.message)))];
  if (messages.length === 0) return null;
  return (
    <ul class="notes" aria-label={report.words.page.notes}>
      {messages.map((message) => (
        <li key={message}>{message}</li>
      ))}
    </ul>
  );
}
