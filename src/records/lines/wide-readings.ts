import { numberOf, placeOf, texts, wholeNumbers, words } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import { type LineSeen, seenByInstrument } from "../reading-rules.ts";
import { rejecter } from "../reject.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import { deviceFinder } from "./device-finder.ts";
import type { Devices } from "./devices.ts";
import {
  inReadingOrder,
  keepIntensity,
  LINE_SEEN,
  newReading,
  READING_METHODS,
  type Readings,
} from "./readings.ts";

export const WIDE_COLUMNS = {
  required: ["cassette_id", "reader_id"],
  optional: ["method", "reading_no", "read_at", "minutes", "blinded", "entered_at"],
};

/**
 * Reads the wide form: one row for each device and reader, one column for each line of the kit. A
 * row is used whole or not at all: a cell that cannot be understood sets it aside.
 *
 * @param columns line of the kit: column of the table
 */
export function readWideReadings(
  table: Table,
  columns: Readonly<Record<string, string>>,
  devices: Devices,
  context: Context,
): Readings {
  const find = deviceFinder(table, devices, context);
  const open = readingOpener(table, context);
  const fill = lineFiller(table, columns, context);
  const reject = rejecter(table, context.issues);
  const list: Reading[] = [];
  const lost: Reading[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = find(row);
    const reading = device === null ? null : open(row, device);
    if (device === null || reading === null) continue;
    if (hasTwin(reading)) {
      const expected = "one row for each device, reader and reading";
      reject(row, "duplicate_reading", "reader_id", expected, reading.reader);
    } else if (fill(reading, row)) {
      device.readings.push(reading);
      list.push(reading);
    } else lost.push(emptied(reading));
  }
  for (const reading of lost) {
    if (hasTwin(reading)) continue;
    reading.device.readings.push(reading);
    list.push(reading);
  }
  return { table, ...inReadingOrder(table, list, context) };
}

function hasTwin({ device, reader, method, number }: Reading): boolean {
  return device.readings.some(
    (other) => other.reader === reader && other.method === method && other.number === number,
  );
}

/** A reading whose row can't be used. It keeps its place, lest a later reading take it. */
function emptied(reading: Reading): Reading {
  reading.rows.fill(-1);
  reading.seen.fill(null);
  reading.intensity = null;
  reading.broken = true;
  return reading;
}

/** The reading that a row tells of, without its lines yet. */
function readingOpener(table: Table, { issues }: Context) {
  const reader = texts(table, "reader_id");
  const method = words({ table, name: "method", issues, consequence: "row_set_aside" }, READING_METHODS);
  const number = wholeNumbers({ table, name: "reading_no", issues });
  const reject = rejecter(table, issues);
  return (row: number, device: Device): Reading | null => {
    const who = reader(row);
    if (who === null) return reject(row, "blank_identifier", "reader_id", "a reader", "");
    const how = method(row) ?? (method.faulty(row) ? null : "eye");
    if (how === null) {
      setAside(table, row, "unknown_code");
      return null;
    }
    return newReading(device, { reader: who, method: how, number: number(row) ?? 1 }, row);
  };
}

/** Fills a reading from the row's line columns; false, with an issue, where a cell cannot be used. */
function lineFiller(table: Table, columns: Readonly<Record<string, string>>, context: Context) {
  const cellsOf = new Map(
    context.kits.map((kit) => [kit, kit.lines.map((line) => table.columns.get(columns[line.id] ?? ""))]),
  );
  const look = seenReader(table, columns, context);
  const reject = rejecter(table, context.issues);
  return (reading: Reading, row: number): boolean => {
    const optical = reading.method === "optical";
    const { kit } = reading.device;
    const cells = cellsOf.get(kit) ?? [];
    for (const [index, line] of kit.lines.entries()) {
      const text = cells[index]?.(row) ?? "";
      const found = look(text, { line: line.id, kit, row, optical });
      if (found === null) {
        const rule = text === "" ? "missing_value" : "unknown_code";
        const word = `one of ${LINE_SEEN.join(", ")}`;
        const expected = optical
          ? `an intensity, 0 or more, with a cut-off in the kit file; or ${word}`
          : word;
        reject(row, rule, columns[line.id] ?? line.id, expected, text);
        return false;
      }
      reading.rows[index] = row;
      reading.seen[index] = found.seen;
      keepIntensity(reading, index, found.intensity);
    }
    return true;
  };
}

interface Where {
  readonly line: string;
  readonly kit: LineKit;
  readonly row: number;
  readonly optical: boolean;
}

/** What one cell says of a line: an instrument's intensity, or a word. */
function seenReader(table: Table, columns: Readonly<Record<string, string>>, { issues }: Context) {
  const comma = table.delimiter !== ",";
  let noted = false;
  return (text: string, { line, kit, row, optical }: Where) => {
    const intensity = optical ? numberOf(text, comma) : null;
    const cutoff = kit.instrument?.cutoffs[line];
    if (intensity !== null && intensity >= 0 && cutoff !== undefined) {
      if (!noted && text.includes(",")) {
        issues.add(
          "decimal_comma",
          placeOf(table, row, columns[line] ?? line),
          "a decimal point",
          text,
          "kept",
        );
        noted = true;
      }
      return { seen: seenByInstrument(intensity, cutoff), intensity };
    }
    const word = LINE_SEEN.find((known) => known === text.toLowerCase());
    return word === undefined ? null : { seen: word as LineSeen, intensity: null };
  };
}
