import { numberOf, placeOf, texts, wholeNumbers, words } from "../cells.ts";
import { type LineSeen, seenByInstrument } from "../reading-rules.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Reading } from "./device.ts";
import { deviceFinder } from "./device-finder.ts";
import type { Devices } from "./devices.ts";
import {
  keepFirstReadings,
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
  const { issues, kit } = context;
  const find = deviceFinder(table, devices, context);
  const reader = texts(table, "reader_id");
  const method = words({ table, name: "method", issues, consequence: "row_set_aside" }, READING_METHODS);
  const number = wholeNumbers({ table, name: "reading_no", issues });
  const fill = lineFiller(table, columns, context);
  const list: Reading[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = find(row);
    if (device === null) continue;
    const who = reader(row);
    const how = method(row) ?? (method.faulty(row) ? null : "eye");
    if (who === null || how === null) {
      if (who === null) {
        issues.add("blank_identifier", placeOf(table, row, "reader_id"), "a reader", "", "row_set_aside");
      }
      setAside(table, row, who === null ? "blank_identifier" : "unknown_code");
      continue;
    }
    const reading = newReading(
      device,
      { reader: who, method: how, number: number(row) ?? 1 },
      row,
      kit.lines.length,
    );
    const twin = device.readings.some(
      (other) => other.reader === who && other.method === how && other.number === reading.number,
    );
    if (twin) {
      const expected = "one row for each device, reader and reading";
      issues.add("duplicate_reading", placeOf(table, row, "reader_id"), expected, who, "row_set_aside");
      setAside(table, row, "duplicate_reading");
    } else if (fill(reading, row)) {
      device.readings.push(reading);
      list.push(reading);
    }
  }
  return { table, list: keepFirstReadings(table, list, context) };
}

/** Fills a reading from the row's line columns; false, with an issue, where a cell cannot be used. */
function lineFiller(table: Table, columns: Readonly<Record<string, string>>, { issues, kit }: Context) {
  const cells = kit.lines.map((line) => table.columns.get(columns[line.id] ?? ""));
  const comma = table.delimiter !== ",";
  return (reading: Reading, row: number): boolean => {
    const optical = reading.method === "optical";
    for (const [index, line] of kit.lines.entries()) {
      const text = cells[index]?.(row) ?? "";
      const measured = optical ? numberOf(text, comma) : null;
      const cutoff = kit.instrument?.cutoffs[line.id];
      const seen: LineSeen | undefined =
        measured !== null && measured >= 0 && cutoff !== undefined
          ? seenByInstrument(measured, cutoff)
          : LINE_SEEN.find((word) => word === text.toLowerCase());
      if (seen === undefined) {
        const rule = text === "" ? "missing_value" : "unknown_code";
        const expected = optical
          ? "an intensity, 0 or more, and a cut-off"
          : `one of ${LINE_SEEN.join(", ")}`;
        issues.add(rule, placeOf(table, row, columns[line.id] ?? null), expected, text, "row_set_aside");
        setAside(table, row, rule);
        return false;
      }
      reading.rows[index] = row;
      reading.seen[index] = seen;
      keepIntensity(reading, index, measured);
    }
    return true;
  };
}
