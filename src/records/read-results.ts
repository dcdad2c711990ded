import type { Context } from "./context.ts";
import { type Gathered, noGathered } from "./gathered.ts";
import { missingStrata } from "./missing-strata.ts";
import type { DeviceResult } from "./model.ts";
import { pairResults } from "./results/pair-results.ts";
import { type ResultRecords, type ResultRow, resultRowReader } from "./results/result-row.ts";
import type { Study } from "./study.ts";
import { isCounted, setAside } from "./table.ts";
import type { OpenTable } from "./tables.ts";

/**
 * Reads result-level records: one table, each row one rapid test with its results and reference
 * results in mapped columns and codes. Several rows of a person, specimen type and reader are
 * attempts, in file order; a further row after a valid result is set aside.
 */
export function readResults(records: ResultRecords, open: OpenTable, context: Context): Gathered | null {
  const { study } = context;
  const mapped = Object.values(records.columns).filter((name) => name !== undefined);
  const results = records.analytes.flatMap((entry) => [entry.rapid, entry.reference]);
  const strata = study.strata.map((stratum) => stratum.column);
  const table = open(records.table, { required: [...mapped, ...results], optional: strata });
  if (table === null) return null;
  missingStrata(table, context);
  const read = resultRowReader(table, records, context);
  const rows: ResultRow[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const found = read(row);
    if (found.reason === null) rows.push(found);
    else setAside(table, row, found.reason);
  }
  const paired = pairResults(table, rows, records, context);
  const counted = paired.rows;
  return {
    ...noGathered(),
    tables: [table],
    people: { enrolled: paired.enrolled, sites: sitesOf(counted) },
    results: counted.flatMap((row) => deviceResults(row, study)),
    sets: paired.sets,
    readings: { total: counted.length, notBlinded: 0, blindingStated: 0 },
    devices: counted.map(({ site, attempt }) => ({ lot: null, operator: null, attempt, site })),
  };
}

function sitesOf(rows: readonly ResultRow[]): string[] {
  return [...new Set(rows.map((row) => row.site).filter((site) => site !== null))].sort();
}

/** What the results say of a device; line facts are not recorded at this level. */
function deviceResults(row: ResultRow, study: Study): DeviceResult[] {
  return study.analytes.flatMap((analyte, index): DeviceResult[] => {
    const result = row.rapid[index] ?? "not_done";
    if (result === "not_done") return [];
    return [
      {
        device: row.device ?? `row ${row.line}`,
        person: row.person,
        visit: 1,
        specimen: row.specimen,
        analyte: analyte.id,
        reader: row.reader,
        method: "eye",
        attempt: row.attempt,
        result,
        reason: result === "invalid" ? "recorded_invalid" : null,
        lineWithoutControl: false,
        faint: false,
        window: row.window,
        minutes: row.minutes,
        intensity: null,
        site: row.site,
        lot: null,
        operator: null,
      },
    ];
  });
}
