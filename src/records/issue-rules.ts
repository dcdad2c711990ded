import { DEVICE_RULES } from "./issue-rules/device-rules.ts";
import { FILE_RULES } from "./issue-rules/file-rules.ts";
import { ROW_RULES } from "./issue-rules/row-rules.ts";
import { TIME_RULES } from "./issue-rules/time-rules.ts";

/**
 * Every rule that a row issue can name, in one catalogue: how grave it is, what it means, and how to
 * mend it. The codes are stable; the words may be translated.
 */
export const ISSUE_RULES = { ...FILE_RULES, ...ROW_RULES, ...DEVICE_RULES, ...TIME_RULES } as const;

export type IssueRule = keyof typeof ISSUE_RULES;

/** The catalogue entry of a code, or `null` for a code of another version. */
export function issueRule(code: string) {
  return Object.hasOwn(ISSUE_RULES, code) ? ISSUE_RULES[code as IssueRule] : null;
}
