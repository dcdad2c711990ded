import type { StudyRecords } from "../records/model.ts";
import type { Table } from "./csv.ts";
import type { Evaluation } from "./document.ts";
import {
  assuranceTable,
  clusteredTable,
  comparisonsTable,
  decisionTable,
  truePrevalenceTable,
} from "./tables/decision-tables.ts";
import { flowTable, invalidTable, jointTable, queriesTable, subgroupsTable } from "./tables/detail-tables.ts";
import { discordantTable } from "./tables/discordant-table.ts";
import { intensityTables } from "./tables/intensity-tables.ts";
import { latentTables } from "./tables/latent-tables.ts";
import { accuracyTable, answersTable, crosstabsTable, predictiveTable } from "./tables/main-tables.ts";
import { panelTables } from "./tables/panel-tables.ts";
import { pooledTables } from "./tables/pooled-tables.ts";
import { agreementTable, disagreementsTable, rereadingsTable } from "./tables/reader-tables.ts";
import { readingTimeTable } from "./tables/reading-time-table.ts";
import { referenceTables } from "./tables/reference-tables.ts";

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
    agreementTable(evaluation),
    disagreementsTable(evaluation),
    rereadingsTable(evaluation),
    comparisonsTable(evaluation),
    clusteredTable(evaluation),
    decisionTable(evaluation),
    assuranceTable(evaluation),
    truePrevalenceTable(evaluation),
    flowTable(evaluation),
    queriesTable(evaluation),
    discordantTable(records),
    ...referenceTables(evaluation),
    ...latentTables(evaluation),
    ...pooledTables(evaluation),
    ...intensityTables(evaluation),
    ...panelTables(evaluation),
  ];
}
