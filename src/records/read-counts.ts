import { placeOf, texts, wholeNumbers } from "./cells.ts";
import type { Context } from "./context.ts";
import { type Gathered, noGathered } from "./gathered.ts";
import { missingStrata } from "./missing-strata.ts";
import type { Pair, PairedSet } from "./model.ts";
import { suggestion } from "./nearest.ts";
import type { Study } from "./study.ts";
import { isCounted, setAside, type Table } from "./table.ts";
import type { OpenTable } from "./tables.ts";

type CountRecords = Extract<Study["records"], { shape: "counts" }>;

/**
 * Reads records that are counts already: each row one fourfold table, of one analyte and specimen
 * type. Rows of the same analyte and specimen add up (sites, say; strata keep them apart).
 */
export function readCounts(records: CountRecords, open: OpenTable, context: Context): Gathered | null {
  const names = records.columns;
  const strata = context.study.strata.map((stratum) => stratum.column);
  const required = Object.values(names).filter((name) => name !== undefined);
  const table = open(records.table, { required, optional: strata });
  if (table === null) return null;
  missingStrata(table, context);
  const pairsOf = rowReader(table, records, context);
  const cells = new Map<string, Pair[]>();
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const cell = cellOf(table, row, records, context);
    const pairs = cell === null ? null : pairsOf(row);
    if (cell !== null && pairs !== null) cells.set(cell, [...(cells.get(cell) ?? []), ...pairs]);
  }
  const sets = setsOf(cells, context.study);
  const enrolled = Math.max(0, ...sets.map((set) => set.pairs.reduce((sum, pair) => sum + pair.weight, 0)));
  return { ...noGathered(), tables: [table], people: { enrolled, sites: [] }, sets };
}

function setsOf(cells: ReadonlyMap<string, readonly Pair[]>, study: Study): PairedSet[] {
  return study.analytes.flatMap((analyte) =>
    study.specimens.flatMap(({ type }): PairedSet[] => {
      const pairs = cells.get(`${analyte.id}\u0001${type}`);
      if (pairs === undefined) return [];
      const who = { reader: "recorded", method: "recorded" as const };
      return [{ analyte: analyte.id, specimen: type, ...who, pairs, before: [] }];
    }),
  );
}

/** Analyte and specimen type of a row; `null`, the row set aside, where the study knows them not. */
function cellOf(table: Table, row: number, records: CountRecords, { study, issues }: Context): string | null {
  const analytes = study.analytes.map((analyte) => analyte.id);
  const specimens = study.specimens.map((specimen) => specimen.type);
  const pick = (
    column: string | undefined,
    known: readonly string[],
    rule: "unknown_analyte" | "unknown_specimen_type",
  ): string | null => {
    if (column === undefined) return known[0] ?? null;
    const name = texts(table, column)(row) ?? "";
    const found = known.find((entry) => entry.toLowerCase() === name.toLowerCase());
    if (found !== undefined) return found;
    const expected = `one of ${known.join(", ")}${suggestion(name, known)}`;
    issues.add(rule, placeOf(table, row, column), expected, name, "row_set_aside");
    setAside(table, row, rule);
    return null;
  };
  const analyte = pick(records.columns.analyte, analytes, "unknown_analyte");
  const specimen =
    analyte === null ? null : pick(records.columns.specimen, specimens, "unknown_specimen_type");
  return specimen === null ? null : `${analyte}\u0001${specimen}`;
}

const CELLS = [
  ["true_positives", "reactive", "positive"],
  ["false_positives", "reactive", "negative"],
  ["false_negatives", "nonreactive", "positive"],
  ["true_negatives", "nonreactive", "negative"],
  ["invalid_positives", "invalid", "positive"],
  ["invalid_negatives", "invalid", "negative"],
] as const;

const MOST_PEOPLE = 1e12;

/** One row as weighted pairs; `null`, the row set aside, where a count is not a whole number, 0 or more. */
function rowReader(table: Table, records: CountRecords, { study, issues }: Context) {
  const mapped = CELLS.flatMap(([field, rapid, reference]) => {
    const name = records.columns[field];
    if (name === undefined) return [];
    const count = wholeNumbers({ table, name, issues, consequence: "row_set_aside" });
    return [{ field, rapid, reference, name, count }];
  });
  const selection = study.arms[0]?.selection ?? "convenience";
  const groups = study.strata.map((stratum) => ({ id: stratum.id, cell: texts(table, stratum.column) }));
  return (row: number): Pair[] | null => {
    const strata = Object.fromEntries(groups.map((group) => [group.id, group.cell(row)]));
    const pairs: Pair[] = [];
    for (const { field, rapid, reference, name, count } of mapped) {
      const weight = count(row);
      if (weight === null || weight < 0 || weight > MOST_PEOPLE) {
        const place = placeOf(table, row, name);
        const rule = weight === null ? "missing_value" : "out_of_range";
        if (!count.faulty(row)) issues.add(rule, place, "a count, 0 or more", weight ?? "", "row_set_aside");
        setAside(table, row, count.faulty(row) ? "not_a_number" : rule);
        return null;
      }
      if (weight === 0) continue;
      pairs.push({
        person: `row ${table.lines[row]}, ${field}`,
        weight,
        rapid,
        firstRapid: rapid,
        invalidReason: rapid === "invalid" ? "recorded_invalid" : null,
        faint: false,
        window: "unknown",
        minutes: null,
        reference,
        site: null,
        selection,
        strata,
      });
    }
    return pairs;
  };
}
