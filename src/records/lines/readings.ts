import { numbers, placeOf, truths } from "../cells.ts";
import type { ReadingMethod } from "../model.ts";
import { elapsed, type Moment, moment } from "../moments.ts";
import { type LineSeen, LONGEST_MINUTES, windowStatus } from "../reading-rules.ts";
import { type Column, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";

/** All readings of a study, and the table they come from. */
export interface Readings {
  readonly table: Table;
  /** Each reader's first reading of each device. */
  readonly list: readonly Reading[];
  readonly again: readonly Again[];
}

/** A reader's first and second reading of one device. */
export interface Again {
  readonly first: Reading;
  readonly second: Reading;
}

export const READING_METHODS = ["eye", "eye_photo", "optical"] as const;
export const LINE_SEEN = ["absent", "faint", "clear", "unreadable"] as const satisfies readonly LineSeen[];

/** A reading without any line yet. */
export function newReading(
  device: Device,
  who: { readonly reader: string; readonly method: ReadingMethod; readonly number: number },
  row: number,
): Reading {
  const lines = device.kit.lines.length;
  return {
    device,
    ...who,
    row,
    rows: new Array<number>(lines).fill(-1),
    seen: new Array<LineSeen | null>(lines).fill(null),
    intensity: null,
    broken: false,
    minutes: null,
    window: "unknown",
    blinded: null,
    results: [],
  };
}

/** Keeps what was measured of one line. */
export function keepIntensity(reading: Reading, line: number, intensity: number | null): void {
  if (intensity === null) return;
  reading.intensity ??= reading.rows.map(() => null);
  reading.intensity[line] = intensity;
}

/**
 * Several readings of one device by one reader: the one of lowest number counts, the next is held
 * against it, and those after it are set aside.
 */
export function inReadingOrder(
  table: Table,
  readings: readonly Reading[],
  { issues }: Context,
): Pick<Readings, "list" | "again"> {
  const list: Reading[] = [];
  const again: Again[] = [];
  const later: Reading[] = [];
  for (const reading of readings) {
    let first: Reading | null = null;
    let earlier = 0;
    for (const other of reading.device.readings) {
      if (other.number >= reading.number || other.reader !== reading.reader) continue;
      if (other.method !== reading.method) continue;
      first = other;
      earlier += 1;
    }
    if (first === null) list.push(reading);
    else if (earlier === 1) again.push({ first, second: reading });
    else later.push(reading);
  }
  for (const { second } of again) {
    removeFrom(second.device.readings, second);
    second.device.again = [...second.device.again, second];
  }
  for (const reading of later) {
    removeFrom(reading.device.readings, reading);
    const place = placeOf(table, reading.row, "reading_no");
    const expected = "two readings at most for each reader";
    issues.add("later_reading", place, expected, reading.number, "row_set_aside");
    for (const row of reading.rows) if (row >= 0) setAside(table, row, "later_reading");
  }
  return { list, again };
}

function removeFrom(readings: Reading[], reading: Reading): void {
  readings.splice(readings.indexOf(reading), 1);
}

/** Fills in minutes, window status and blinding, once the rows of every reading are known. */
export function completeReadings(readings: Readings, context: Context): void {
  const blinded = truths({ table: readings.table, name: "blinded", issues: context.issues });
  const minutes = minutesReader(readings.table, context);
  const complete = (reading: Reading) => {
    if (reading.rows.every((row) => row < 0)) return;
    reading.minutes = minutes(reading);
    reading.window = windowStatus(reading.minutes, reading.device.kit.reading_window);
    for (const row of reading.rows) {
      if (row >= 0 && reading.blinded !== false) reading.blinded = blinded(row) ?? reading.blinded;
    }
  };
  for (const reading of readings.list) complete(reading);
  for (const { second } of readings.again) complete(second);
}

function minutesReader(table: Table, context: Context) {
  const readAt = table.columns.get("read_at");
  const given = table.columns.get("minutes");
  const enteredAt = table.columns.get("entered_at");
  const written = givenMinutes(table, context);
  const notes = { offset: false };
  return (reading: Reading): number | null => {
    const row = rowWith(reading, readAt);
    const entered = rowWith(reading, enteredAt);
    if (entered !== null) checkEntry(table, reading, entered, context);
    if (row !== null) return fromClock(table, reading, row, notes, context);
    const direct = rowWith(reading, given);
    if (direct !== null) return written(direct);
    const column = readAt === undefined && given !== undefined ? "minutes" : "read_at";
    context.issues.add("missing_time", placeOf(table, reading.row, column), "a time", "", "kept");
    return null;
  };
}

/** The first row of a reading whose cell in the column is filled. */
function rowWith(reading: Reading, cells: Column | undefined): number | null {
  if (cells === undefined) return null;
  for (const row of reading.rows) if (row >= 0 && cells(row) !== "") return row;
  return null;
}

function fromClock(
  table: Table,
  reading: Reading,
  row: number,
  notes: { offset: boolean },
  context: Context,
): number | null {
  const { issues } = context;
  const text = table.columns.get("read_at")?.(row) ?? "";
  const place = placeOf(table, row, "read_at");
  const at = moment(text);
  if (at === null) {
    issues.add("not_a_date", place, "a time as 2026-04-01T10:15", text, "value_ignored");
    return null;
  }
  const from = reading.device.timedFrom;
  const passed = from === null ? null : elapsed(from, at);
  if (passed === null) {
    issues.add(
      "missing_time",
      place,
      `the time of ${reading.device.kit.timed_from} and of the reading`,
      text,
      "kept",
    );
    return null;
  }
  if (passed.overMidnight) issues.add("over_midnight", place, "a time with its date", text, "kept");
  if (passed.offsetOnOneSide && !notes.offset) {
    notes.offset = true;
    issues.add("offset_on_one_side", place, "both times with or without offset", text, "kept");
  }
  return plausible(passed.minutes, "result_before_application", place, context);
}

function givenMinutes(table: Table, context: Context) {
  const minutes = numbers({ table, name: "minutes", issues: context.issues });
  return (row: number): number | null => {
    const value = minutes(row);
    return value === null
      ? null
      : plausible(value, "negative_minutes", placeOf(table, row, "minutes"), context);
  };
}

/** Minutes below 0 or above 24 hours are not used; the reading is kept, its minutes unknown. */
function plausible(
  minutes: number,
  below: "negative_minutes" | "result_before_application",
  place: ReturnType<typeof placeOf>,
  { issues }: Context,
): number | null {
  if (minutes < 0) {
    issues.add(below, place, "0 minutes or more after the timed step", minutes, "value_ignored");
    return null;
  }
  if (minutes > LONGEST_MINUTES) {
    issues.add("absurd_minutes", place, `at most ${LONGEST_MINUTES} minutes`, minutes, "value_ignored");
    return null;
  }
  return minutes;
}

function checkEntry(table: Table, reading: Reading, row: number, { issues }: Context): void {
  const text = table.columns.get("entered_at")?.(row) ?? "";
  const entered: Moment | null = moment(text);
  const place = () => placeOf(table, row, "entered_at");
  if (entered === null) {
    issues.add("not_a_date", place(), "a time as 2026-04-01T10:15", text, "value_ignored");
    return;
  }
  const applied = reading.device.appliedAt;
  const bare = applied === null || !applied.dated || !entered.dated;
  if (bare || (elapsed(applied, entered)?.minutes ?? 0) >= 0) return;
  issues.add("entered_before_applied", place(), "an entry after the specimen was applied", text, "kept");
}
