import { issueRule } from "../../../records/issue-rules.ts";
import type { RowIssue } from "../../../records/model.ts";
import type { ViewProps } from "../view.ts";

interface Props extends Pick<ViewProps, "words"> {
  readonly issues: readonly RowIssue[];
}

const MOST = 30;

/** The faults of a file, each with its place. */
export function DraftFaults({ issues, words }: Props) {
  const { open } = words.study;
  const { drafts, methods } = words;
  return (
    <section class="draft-faults" aria-label={drafts.faults(issues.length)}>
      <h2>{drafts.faults(issues.length)}</h2>
      <ul>
        {issues.slice(0, MOST).map(({ file, row, column, rule, expected, received }) => (
          <li key={`${row} ${column} ${rule} ${expected}`}>
            {open.place(file, row, column)}: {open.expected(expected, received)}
            <span class="place">{issueRule(rule)?.fix}</span>
          </li>
        ))}
      </ul>
      {issues.length > MOST && <p class="how">{methods.more(issues.length - MOST)}</p>}
    </section>
  );
}
