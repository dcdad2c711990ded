import type { RowIssue, StudyRecords } from "../../records/model.ts";
import type { Evaluation } from "../document.ts";

const EXAMPLES = 5;
const GRAVEST_FIRST = ["error", "warning", "note"] as const;

/** Everything found in the data, grouped by rule and file, and where each row of each table went. */
export function queriesSection(records: StudyRecords): Evaluation["queries"] {
  const groups = new Map<string, RowIssue[]>();
  for (const issue of records.issues) {
    const key = [issue.rule, issue.severity, issue.file, issue.consequence].join("\u0000");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [issue]);
    else group.push(issue);
  }
  const found = [...groups.values()].map((issues) => {
    const { rule, severity, file, consequence } = issues[0] as RowIssue;
    const examples = issues.slice(0, EXAMPLES).map((issue) => ({ ...issue }));
    return { rule, severity, file, consequence, count: issues.length, examples };
  });
  const rank = (group: (typeof found)[number]) => GRAVEST_FIRST.indexOf(group.severity);
  return {
    total: records.issues.length,
    groups: found.sort((one, other) => rank(one) - rank(other)),
    ledger: records.ledger.map(({ file, rows, analysed, setAside }) => ({
      file,
      rows,
      analysed,
      setAside: setAside.map((entry) => ({ reason: entry.reason, rows: entry.rows.length })),
    })),
  };
}
