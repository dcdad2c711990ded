import type { RowIssue } from "../../../../records/model.ts";

/** Faults of one kind in one file, and which of them is looked at. */
export interface OpenFault {
  readonly issues: readonly RowIssue[];
  readonly place: number;
}

export function canOpen(issue: RowIssue): boolean {
  return issue.row !== null && issue.row > 1 && !isYaml(issue.file);
}

export function isYaml(file: string): boolean {
  return /\.ya?ml$/i.test(file);
}
