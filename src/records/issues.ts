import { describe } from "../core/input-error.ts";
import { ISSUE_RULES, type IssueRule } from "./issue-rules.ts";
import type { Consequence, RowIssue } from "./model.ts";

/** Where an issue stands: line in the file (the header being 1) and column. */
export interface Place {
  readonly file: string;
  readonly row: number | null;
  readonly column: string | null;
}

/** Gathers issues while files are read. The one mutable thing that the readers share. */
export interface IssueLog {
  readonly list: RowIssue[];
  /** An issue about a value, which is quoted and cut where it is long. */
  add(rule: IssueRule, place: Place, expected: string, received: unknown, consequence: Consequence): void;
  /** An issue in words: what was received is said as it stands. */
  say(rule: IssueRule, place: Place, expected: string, received: string, consequence: Consequence): void;
}

export function issueLog(): IssueLog {
  const list: RowIssue[] = [];
  const say: IssueLog["say"] = (rule, place, expected, received, consequence) => {
    const { file, row, column } = place;
    const severity = ISSUE_RULES[rule].severity;
    list.push({ rule, severity, file, row, column, expected, received, consequence });
  };
  return {
    list,
    say,
    add(rule, place, expected, received, consequence) {
      say(rule, place, expected, received === "" ? "nothing" : describe(received), consequence);
    },
  };
}

/** Issues in the order of their place: file as given, then line, file-wide ones first. */
export function inFileOrder(issues: readonly RowIssue[], files: readonly string[]): RowIssue[] {
  const rank = new Map(files.map((file, index) => [file, index]));
  const rankOf = (issue: RowIssue) => rank.get(issue.file) ?? files.length;
  return [...issues].sort((one, other) => rankOf(one) - rankOf(other) || (one.row ?? 0) - (other.row ?? 0));
}
