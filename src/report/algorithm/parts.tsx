import type { Note } from "../../core/note.ts";
import type { Limits } from "../formats.ts";
import * as formats from "../formats.ts";
import type { AlgorithmReport } from "./context.ts";

/** What the methods have to say: each message once, none left out. */
export function AlgorithmNotes({ report, notes }: { report: AlgorithmReport; notes: readonly Note[] }) {
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

/** A percentage without its sign, or a dash of words where there is none. */
export function Share({ report, of }: { report: AlgorithmReport; of: number | null }) {
  if (of === null) return <span class="absent">{report.words.page.notEstimable}</span>;
  return <>{formats.percent(of, formats.percentDecimals({ value: of, lower: null, upper: null }))}</>;
}

/** A number in some format with its limits, if it has any. */
export function Amount(props: { of: Limits; format: (value: number) => string }) {
  const { of, format } = props;
  if (of.value === null) return null;
  const limited = of.lower !== null && of.upper !== null && of.lower !== of.upper;
  return (
    <>
      {format(of.value)}
      {limited ? (
        <span class="limits">{formats.range(format(of.lower ?? 0), format(of.upper ?? 0))}</span>
      ) : null}
    </>
  );
}
