import type { IssueLog } from "./issues.ts";
import type { Kit } from "./kit.ts";
import type { Study } from "./study.ts";

/** What every reader of a table needs. */
export interface Context {
  readonly study: Study;
  /** The kits of the study, the main one first. */
  readonly kits: readonly Kit[];
  readonly issues: IssueLog;
}
