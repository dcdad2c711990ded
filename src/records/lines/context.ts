import type { Context as AnyContext } from "../context.ts";
import type { LineKit } from "../kit.ts";
import type { Study } from "../study.ts";

/** What every reader of a line-level table needs: lines can't be read without the kits' rules for them. */
export interface Context extends AnyContext {
  readonly kits: readonly LineKit[];
}

/** Columns of one table that strata take their groups from. */
export function strataColumns(study: Study, table: string): string[] {
  return study.strata.filter((stratum) => stratum.table === table).map((stratum) => stratum.column);
}
