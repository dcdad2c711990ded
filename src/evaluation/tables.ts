import type { StudyRecords } from "../records/model.ts";
import type { Table } from "./csv.ts";
import type { Evaluation } from "./document.ts";
import {
  flowTable,
  invalidTable,
  jointTable,
  queriesTable,
  readingTimeTable,
  subgroupsTable,
} from "./tables/detail-tables.ts";
import { discordantTable } from "./tables/discordant-table.ts";
import { accuracyTable, answersTable, crosstabsTable, predictiveTable } from "./tables/main-tables.ts";

/** Every table of the evaluation, tidy: one observation a row, full precision, no rounding. */
export function evaluationTables(evaluation: Evaluation, records: StudyRecords): Table[] {
  return [
    answersTable(evaluation),
    accuracyTable(evaluation),
    crosstabsTable(evaluation),
    predictiveTable(evaluation),
    invalidTable(evaluation),
    subgroupsTable(evaluation),
    readingTimeTable(evaluation),
    jointTable(evaluation),
    flowTable(evaluation),
    queriesTable(evaluation),
    discordantTable(records),
  ];
}
