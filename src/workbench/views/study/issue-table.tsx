import { useState } from "preact/hooks";
import { issueRule } from "../../../records/issue-rules.ts";
import type { RowIssue, Severity } from "../../../records/model.ts";
import { count } from "../../../report/formats.ts";
import { Scrolling } from "../scrolling.tsx";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { canOpen, type OpenFault } from "./mend/open-fault.ts";
import { RowMend } from "./mend/row-mend.tsx";

const GRAVEST_FIRST: readonly Severity[] = ["error", "warning", "note"];

/** The faults found in the files, one row for each kind in each file. */
export function IssueTable({ store, words }: ViewProps) {
  const issues = useStore(store, ({ reading }) => reading?.issues ?? NONE);
  const { open } = words.study;
  const [fault, show] = useState<OpenFault | null>(null);
  return (
    <section>
      <h2>{open.issues}</h2>
      {fault !== null && <RowMend store={store} words={words} fault={fault} show={show} />}
      {issues.length === 0 ? (
        <p>{open.noIssues}</p>
      ) : (
        <Scrolling label={open.issuesCaption}>
          <table class="issues">
            <thead>
              <tr>
                <th scope="col">{open.issue}</th>
                <th scope="col">{open.where}</th>
                <th scope="col">{open.consequence}</th>
              </tr>
            </thead>
            <tbody>
              {grouped(issues).map((group) => (
                <IssueRow key={keyOf(group[0] as RowIssue)} group={group} words={words} show={show} />
              ))}
            </tbody>
          </table>
        </Scrolling>
      )}
    </section>
  );
}

const NONE: readonly RowIssue[] = [];

interface IssueRowProps extends Pick<ViewProps, "words"> {
  readonly group: readonly RowIssue[];
  readonly show: (fault: OpenFault) => void;
}

function IssueRow({ group, words, show }: IssueRowProps) {
  const first = group[0] as RowIssue;
  const rule = issueRule(first.rule);
  const { open } = words.study;
  return (
    <tr>
      <th scope="row">
        {rule?.meaning ?? first.rule}
        <span class="place">{rule?.fix ?? ""}</span>
      </th>
      <td>
        {open.first(open.place(first.file, first.row, first.column), group.length - 1)}
        <span class="place">{open.expected(first.expected, first.received)}</span>
        {canOpen(first) && (
          <button
            type="button"
            class="plain"
            aria-label={`${words.mend.open}: ${open.place(first.file, first.row, first.column)}`}
            onClick={() => show({ issues: group, place: 0 })}
          >
            {words.mend.open}
          </button>
        )}
      </td>
      <td>
        {count(group.length)} × {open.severities[first.severity]}
        <span class="place">{open.consequences[first.consequence]}</span>
      </td>
    </tr>
  );
}

function keyOf({ rule, file, consequence }: RowIssue): string {
  return `${file} ${rule} ${consequence}`;
}

/** The gravest first, then in file order. */
function grouped(issues: readonly RowIssue[]): (readonly RowIssue[])[] {
  const groups = new Map<string, RowIssue[]>();
  for (const issue of issues) {
    const group = groups.get(keyOf(issue));
    if (group === undefined) groups.set(keyOf(issue), [issue]);
    else group.push(issue);
  }
  const rank = (group: readonly RowIssue[]) => GRAVEST_FIRST.indexOf((group[0] as RowIssue).severity);
  return [...groups.values()].sort((one, other) => rank(one) - rank(other));
}
