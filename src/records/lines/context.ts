import type { IssueLog } from "../issues.ts";
import type { Kit } from "../kit.ts";
import type { Study } from "../study.ts";

/** What every reader of a line-level table needs. */
export interface Context {
  readonly study: Study;
  readonly kit: Kit;
  readonly issues: IssueLog;
}

/** Columns of one table that strata take their groups from. */
export function strataColumns(study: Study, table: string): string[] {
  return study.strata.filter((stratum) => stratum.table === table).map((stratum) => stratum.column);
}
