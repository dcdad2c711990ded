import type { Context } from "./context.ts";
import type { Table } from "./table.ts";

/** An issue for each stratum whose column the only table of the study lacks; its groups are then unknown. */
export function missingStrata(table: Table, { study, issues }: Context): void {
  for (const stratum of study.strata) {
    if (table.columns.has(stratum.column)) continue;
    const place = { file: table.file, row: 1, column: stratum.column };
    const expected = `the column of the stratum ${stratum.id}`;
    issues.say("missing_column", place, expected, table.header.join(","), "value_ignored");
  }
}
