import type { ComponentChildren } from "preact";
import type { Note } from "../../core/note.ts";
import * as formats from "../formats.ts";
import type { PlanReport } from "./context.ts";

/** What the methods have to say: each message once, none left out. */
export function PlanNotes({ report, notes }: { report: PlanReport; notes: readonly Note[] }) {
  const { grammar, page } = report.words;
  const messages = [...new Set(notes.map(({ message }) => grammar.closed(grammar.sentence(message))))];
  if (messages.length === 0) return null;
  return (
    <ul class="notes" aria-label={page.notes}>
      {messages.map((message) => (
        <li key={message}>{message}</li>
      ))}
    </ul>
  );
}

/** A number of people, or that there is none; why stands in the notes below. */
export function PeopleOr({ report, of, bold }: { report: PlanReport; of: number | null; bold?: boolean }) {
  if (of === null) return <span class="absent">{report.words.plan.noPlan}</span>;
  const text = formats.count(of);
  return bold === true ? <b>{text}</b> : <span>{text}</span>;
}

/** A number in some format, or nothing. */
export function shown(value: number | null, format: (value: number) => string): ComponentChildren {
  return value === null ? "" : format(value);
}
