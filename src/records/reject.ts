import { placeOf } from "./cells.ts";
import type { IssueRule } from "./issue-rules.ts";
import type { IssueLog } from "./issues.ts";
import { setAside, type Table } from "./table.ts";

/** Sets a row aside with an issue of the same code; gives `null`, so that a reader can return it. */
export type Reject = (
  row: number,
  rule: IssueRule,
  column: string,
  expected: string,
  received: unknown,
) => null;

export function rejecter(table: Table, issues: IssueLog): Reject {
  return (row, rule, column, expected, received) => {
    issues.add(rule, placeOf(table, row, column), expected, received, "row_set_aside");
    setAside(table, row, rule);
    return null;
  };
}
