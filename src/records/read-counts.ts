import { placeOf, texts, wholeNumbers } from "./cells.ts";
import type { Context } from "./context.ts";
import { type Gathered, noGathered } from "./gathered.ts";
import type { IssueRule } from "./issue-rules.ts";
import { accepts, kitCells } from "./kit-cells.ts";
import { missingStrata } from "./missing-strata.ts";
import type { Pair, PairedSet } from "./model.ts";
import { suggestion } from "./nearest.ts";
import { rejecter } from "./reject.ts";
import type { Study } from "./study.ts";
import { isCounted, setAside, type Table } from "./table.ts";
import type { OpenTable } from "./tables.ts";

type CountRecords = Extract<Study["records"], { shape: "counts" }>;

/**
 * Reads records that are counts already: each row one fourfold table, of one analyte, kit and
 * specimen type. Rows of the same three add up (sites, say; strata keep them apart).
 */
export function readCounts(records: CountRecords, open: OpenTable, context: Context): Gathered | null {
  const names = records.columns;
  const strata = context.study.strata.map((stratum) => stratum.column);
  const required = Object.values(names).filter((name) => name !== undefined);
  const table = open(records.table, { required, optional: strata });
  if (table === null) return null;
  missingStrata(table, context);
  const cellOf = cellReader(table, records, context);
  const pairsOf = rowReader(table, records, context);
  const cells = new Map<string, Pair[]>();
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const cell = cellOf(row);
    const pairs = cell === null ? null : pairsOf(row);
    if (cell !== null && pairs !== null) cells.set(cell, [...(cells.get(cell) ?? []), ...pairs]);
  }
  const sets = setsOf(cells, context);
  const enrolled = Math.max(0, ...sets.map((set) => set.pairs.reduce((sum, pair) => sum + pair.weight, 0)));
  return { ...noGathered(), tables: [table], people: { enrolled, sites: [] }, sets };
}

function setsOf(cells: ReadonlyMap<string, readonly Pair[]>, { study, kits }: Context): PairedSet[] {
  return kitCells(study, kits, () => true).flatMap(({ analyte, kit, specimen }): PairedSet[] => {
    const pairs = cells.get(keyOf(analyte, kit.id, specimen));
    if (pairs === undefined) return [];
    const who = { reader: "recorded", method: "recorded" as const };
    return [{ analyte, kit: kit.id, specimen, ...who, pairs, before: [] }];
  });
}

function keyOf(analyte: string, kit: string, specimen: string): string {
  return `${analyte}\u0001${kit}\u0001${specimen}`;
}

/** Analyte, kit and specimen type of a row; `null`, the row set aside, where the study knows them not. */
function cellReader(table: Table, { columns }: CountRecords, { study, kits, issues }: Context) {
  const reject = rejecter(table, issues);
  const pick = (column: string | undefined, known: readonly string[], rule: IssueRule) => {
    const cell = column === undefined ? null : texts(table, column);
    return (row: number): string | null => {
      if (cell === null || column === undefined) return known[0] ?? null;
      const name = cell(row) ?? "";
      const found = known.find((entry) => entry.toLowerCase() === name.toLowerCase());
      if (found !== undefined) return found;
      return reject(row, rule, column, `one of ${known.join(", ")}${suggestion(name, known)}`, name);
    };
  };
  const analyteOf = pick(columns.analyte, named(study.analytes), "unknown_analyte");
  const kitOf = pick(columns.kit, named(kits), "unknown_kit");
  const types = study.specimens.map(({ type }) => type);
  const specimenOf = pick(columns.specimen, types, "unknown_specimen_type");
  return (row: number): string | null => {
    const analyte = analyteOf(row);
    const id = analyte === null ? null : kitOf(row);
    const specimen = id === null ? null : specimenOf(row);
    const kit = kits.find((entry) => entry.id === id);
    if (analyte === null || kit === undefined || specimen === null) return null;
    if (accepts(kit, specimen)) return keyOf(analyte, kit.id, specimen);
    const expected = `a specimen type of ${kit.id}`;
    return reject(row, "specimen_not_of_kit", columns.specimen ?? "", expected, specimen);
  };
}

function named(entries: readonly { readonly id: string }[]): string[] {
  return entries.map(({ id }) => id);
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
