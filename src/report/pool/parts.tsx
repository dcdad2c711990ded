import type { Note } from "../../core/note.ts";
import type { PoolReport } from "./context.ts";

/** Codes of notes that the page says elsewhere, or that tell what was not asked for. */
const SAID: ReadonlySet<string> = new Set([
  "not_asked",
  "empirical_bayes",
  "few_studies",
  "boundary",
  "not_converged",
  "no_observations",
  "no_diseased",
  "no_nondiseased",
  "one_kind",
]);

/** What the methods have to say: each message once, none left out but those said elsewhere. */
export function PoolNotes(props: { report: PoolReport; notes: readonly Note[]; all?: boolean }) {
  const { grammar, page } = props.report.words;
  const kept = props.notes.filter(({ code }) => props.all === true || !SAID.has(code));
  const messages = [...new Set(kept.map(({ message }) => grammar.closed(grammar.sentence(message))))];
  if (messages.length === 0) return null;
  return (
    <ul class="notes" aria-label={page.notes}>
      {messages.map((message) => (
        <li key={message}>{message}</li>
      ))}
    </ul>
  );
}
