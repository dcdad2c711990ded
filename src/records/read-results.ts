import type { Context } from "./context.ts";
import { type Gathered, noGathered } from "./gathered.ts";
import { missingStrata } from "./missing-strata.ts";
import type { DeviceResult } from "./model.ts";
import { pairResults } from "./results/pair-results.ts";
import {
  type KitResults,
  type ResultRecords,
  type ResultRow,
  resultRowReader,
} from "./results/result-row.ts";
import type { Study } from "./study.ts";
import { isCounted, setAside } from "./table.ts";
import type { OpenTable } from "./tables.ts";

/**
 * Reads result-level records: one table, each row one rapid test with its results and reference
 * results in mapped columns and codes; or the results of several kits side by side. Several rows of a
 * person, kit, specimen type and reader are attempts, in file order; a further result after a valid
 * one is set aside.
 */
export function readResults(records: ResultRecords, open: OpenTable, context: Context): Gathered | null {
  const { study } = context;
  const mapped = Object.values(records.columns).filter((name) => name !== undefined);
  const results = records.analytes.flatMap(({ rapid, reference, value }) =>
    value === undefined ? [rapid, reference] : [rapid, reference, value],
  );
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
  const used = counted.flatMap(usedKits);
  return {
    ...noGathered(),
    tables: [table],
    people: { enrolled: paired.enrolled, sites: sitesOf(counted) },
    results: used.flatMap((use) => deviceResults(use, study)),
    sets: paired.sets,
    readings: { total: used.length, notBlinded: 0, blindingStated: 0 },
    devices: used.map(({ row: { site }, kit: { kit, attempt } }) => ({
      kit,
      lot: null,
      operator: null,
      attempt: Math.max(1, attempt),
      site,
    })),
  };
}

function sitesOf(rows: readonly ResultRow[]): string[] {
  return [...new Set(rows.map((row) => row.site).filter((site) => site !== null))].sort();
}

/** One kit's results in a row: one device. */
interface Use {
  readonly row: ResultRow;
  readonly kit: KitResults;
  readonly device: string;
}

/** The devices of a row, one for each kit; a row without any result stands for one of the main kit. */
function usedKits(row: ResultRow): Use[] {
  const used = row.kits.filter((kit) => kit.attempt > 0);
  const name = row.device ?? `row ${row.line}`;
  const named = (kit: KitResults) => (used.length > 1 ? `${name}, ${kit.kit}` : name);
  return (used.length > 0 ? used : row.kits.slice(0, 1)).map((kit) => ({ row, kit, device: named(kit) }));
}

/** What the results say of a device; line facts are not recorded at this level. */
function deviceResults({ row, kit, device }: Use, study: Study): DeviceResult[] {
  return study.analytes.flatMap((analyte, index): DeviceResult[] => {
    const result = kit.rapid[index] ?? "not_done";
    if (result === "not_done") return [];
    return [
      {
        device,
        person: row.person,
        visit: 1,
        specimen: row.specimen,
        analyte: analyte.id,
        kit: kit.kit,
        reader: row.reader,
        method: "eye",
        attempt: kit.attempt,
        result,
        reason: result === "invalid" ? "recorded_invalid" : null,
        lineWithoutControl: false,
        faint: false,
        window: kit.window,
        minutes: row.minutes,
        intensity: kit.values[index] ?? null,
        site: row.site,
        lot: null,
        operator: null,
      },
    ];
  });
}
