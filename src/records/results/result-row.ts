import { type CellReader, codes, numbers, placeOf, texts, words } from "../cells.ts";
import type { Context } from "../context.ts";
import type { IssueLog } from "../issues.ts";
import type { Kit } from "../kit.ts";
import type { RapidResult, ReferenceStatus, WindowStatus } from "../model.ts";
import { suggestion } from "../nearest.ts";
import { LONGEST_MINUTES, windowStatus } from "../reading-rules.ts";
import { SELECTIONS, type Selection, type Study } from "../study.ts";
import type { Table } from "../table.ts";

export type ResultRecords = Extract<Study["records"], { shape: "results" }>;

/** One row of a results table, its columns and codes understood. */
export interface ResultRow {
  readonly row: number;
  readonly line: number;
  readonly person: string;
  readonly device: string | null;
  readonly specimen: string;
  readonly reader: string;
  readonly site: string | null;
  readonly selection: Selection;
  readonly minutes: number | null;
  /** By kit; by analyte in the order of the study file. */
  readonly kits: readonly KitResults[];
  readonly reference: readonly ReferenceStatus[];
  readonly strata: Readonly<Record<string, string | null>>;
  /** Why the row is set aside. */
  readonly reason: string | null;
}

/** What a row says of one kit. */
export interface KitResults {
  readonly kit: string;
  readonly window: WindowStatus;
  /** By analyte; nothing done where the row holds no result of this kit. */
  readonly rapid: readonly (RapidResult | "not_done")[];
  readonly done: boolean;
  /** By analyte: what the instrument measured; none where no column holds it. */
  readonly values: readonly (number | null)[];
  /** Which attempt of the person with this kit; 0 where the results don't count. */
  attempt: number;
}

export function resultRowReader(
  table: Table,
  records: ResultRecords,
  context: Context,
): (row: number) => ResultRow {
  const { columns } = records;
  const names = namesReader(table, columns, context);
  const specimen = specimenReader(table, columns.specimen, context);
  const selection = selectionReader(table, columns.selection, context);
  const minutes = minutesReader(table, columns.minutes, context);
  const results = resultReaders(table, records, context);
  const groups = context.study.strata.map(({ id, column }) => ({ id, cell: texts(table, column) }));
  return (row) => {
    const { blank, ...named } = names(row);
    const type = specimen(row);
    const after = minutes(row);
    return {
      row,
      ...named,
      specimen: type ?? "",
      selection: selection(row),
      minutes: after,
      kits: context.kits.map((kit, at) =>
        kitResults(
          kit,
          after,
          results.rapid[at]?.map((cell) => cell(row)),
          results.values[at]?.map((cell) => cell(row)),
        ),
      ),
      reference: results.reference.map((cell) => cell(row)),
      strata: Object.fromEntries(groups.map((group) => [group.id, group.cell(row)])),
      reason: blank ?? (type === null ? "unknown_specimen_type" : null),
    };
  };
}

/** Who, on which device, by whom, where; a row without a name that is mapped is set aside. */
function namesReader(table: Table, columns: ResultRecords["columns"], { issues }: Context) {
  const person = optionalTexts(table, columns.person);
  const device = optionalTexts(table, columns.device);
  const reader = optionalTexts(table, columns.reader);
  const site = optionalTexts(table, columns.site);
  return (row: number) => {
    const line = table.lines[row] ?? 0;
    const who = columns.person === undefined ? `row ${line}` : person(row);
    const by = columns.reader === undefined ? "recorded" : reader(row);
    const blank = who === null ? columns.person : by === null ? columns.reader : undefined;
    if (blank !== undefined) {
      const place = placeOf(table, row, blank);
      issues.add("blank_identifier", place, "an identifier", "", "row_set_aside");
    }
    return {
      line,
      person: who ?? "",
      device: device(row),
      reader: by ?? "",
      site: site(row),
      blank: blank === undefined ? null : ("blank_identifier" as const),
    };
  };
}

function optionalTexts(table: Table, name: string | undefined): (row: number) => string | null {
  return name === undefined ? () => null : texts(table, name);
}

function specimenReader(table: Table, name: string | undefined, { study, issues }: Context) {
  const types = study.specimens.map((entry) => entry.type);
  const cell = optionalTexts(table, name);
  return (row: number): string | null => {
    if (name === undefined) return types[0] ?? null;
    const text = cell(row) ?? "";
    const found = types.find((type) => type.toLowerCase() === text.toLowerCase());
    if (found !== undefined) return found;
    const expected = `one of ${types.join(", ")}${suggestion(text, types)}`;
    issues.add("unknown_specimen_type", placeOf(table, row, name), expected, text, "row_set_aside");
    return null;
  };
}

function selectionReader(table: Table, name: string | undefined, { study, issues }: Context) {
  const own = name === undefined ? () => null : words({ table, name, issues }, SELECTIONS);
  const fallback = study.arms.length === 1 ? study.arms[0]?.selection : undefined;
  if (name === undefined && fallback === undefined) {
    const place = { file: table.file, row: null, column: null };
    const expected = "a selection column, as the study has several arms; all count as a convenience sample";
    issues.say("missing_value", place, expected, "no such column", "kept");
  }
  return (row: number): Selection => own(row) ?? fallback ?? "convenience";
}

function minutesReader(table: Table, name: string | undefined, { issues }: Context) {
  if (name === undefined) return () => null;
  const minutes = numbers({ table, name, issues });
  return (row: number): number | null => {
    const value = minutes(row);
    if (value === null || (value >= 0 && value <= LONGEST_MINUTES)) return value;
    const rule = value < 0 ? "negative_minutes" : "absurd_minutes";
    const place = placeOf(table, row, name);
    issues.add(rule, place, `0 to ${LONGEST_MINUTES} minutes`, value, "value_ignored");
    return null;
  };
}

interface ResultReaders {
  /** By kit, then analyte. */
  readonly rapid: readonly (readonly ((row: number) => RapidResult | "not_done")[])[];
  readonly reference: readonly ((row: number) => ReferenceStatus)[];
  /** By kit, then analyte; none for a kit without a column of numbers. */
  readonly values: readonly (readonly ((row: number) => number | null)[])[];
}

/** The result cells of each kit and analyte. An empty cell is `not_done` unless it is listed as a code. */
function resultReaders(
  table: Table,
  records: ResultRecords,
  { study, kits, issues }: Context,
): ResultReaders {
  const rapidCodes = meaningOf(records.codes.rapid);
  const referenceCodes = meaningOf(records.codes.reference);
  const mappedTo = (analyte: string) => records.analytes.filter((entry) => entry.analyte === analyte);
  const rapid = kits.map((kit) =>
    study.analytes.map(({ id }) => {
      const mapped = mappedTo(id).find((entry) => (entry.kit ?? kits[0]?.id) === kit.id);
      const cell = codes({ table, name: mapped?.rapid ?? "", issues }, rapidCodes);
      return withEmpty<RapidResult | "not_done">(
        cell,
        mapped === undefined ? "not_done" : rapidCodes.get(""),
      );
    }),
  );
  const reference = study.analytes.map(({ id }) => {
    const cell = codes({ table, name: mappedTo(id)[0]?.reference ?? "", issues }, referenceCodes);
    return withEmpty<ReferenceStatus>(cell, referenceCodes.get(""));
  });
  const values = kits.map((kit) => {
    const own = records.analytes.filter((entry) => (entry.kit ?? kits[0]?.id) === kit.id);
    if (own.every(({ value }) => value === undefined)) return [];
    return study.analytes.map(({ id }) =>
      valueReader(
        table,
        own.find(({ analyte }) => analyte === id),
        issues,
      ),
    );
  });
  return { rapid, reference, values };
}

/** What an instrument gave; a probability lies from 0 to 1. */
function valueReader(table: Table, mapped: ResultRecords["analytes"][number] | undefined, issues: IssueLog) {
  const name = mapped?.value;
  if (name === undefined) return () => null;
  const cell = numbers({ table, name, issues });
  if (!mapped?.probability) return cell;
  return (row: number): number | null => {
    const value = cell(row);
    if (value === null || (value >= 0 && value <= 1)) return value;
    issues.add("out_of_range", placeOf(table, row, name), "a probability, 0 to 1", value, "value_ignored");
    return null;
  };
}

function kitResults(
  kit: Kit,
  minutes: number | null,
  rapid: KitResults["rapid"] = [],
  values: KitResults["values"] = [],
): KitResults {
  return {
    kit: kit.id,
    window: windowStatus(minutes, kit.reading_window),
    rapid,
    done: rapid.some((result) => result !== "not_done"),
    values,
    attempt: 0,
  };
}

/** A code that is not understood counts as not done: its issue says so. */
function withEmpty<Value>(cell: CellReader<Value>, empty: Value | undefined) {
  return (row: number): Value | "not_done" =>
    cell(row) ?? (cell.faulty(row) ? "not_done" : (empty ?? "not_done"));
}

function meaningOf<Word extends string>(lists: Readonly<Record<Word, readonly string[]>>): Map<string, Word> {
  const meaning = new Map<string, Word>();
  for (const [word, list] of Object.entries(lists) as [Word, readonly string[]][]) {
    for (const code of list) meaning.set(code.trim().toLowerCase(), word);
  }
  return meaning;
}
