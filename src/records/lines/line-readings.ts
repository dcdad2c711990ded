import { numbers, placeOf, texts, wholeNumbers, words } from "../cells.ts";
import type { IssueRule } from "../issue-rules.ts";
import { suggestion } from "../nearest.ts";
import { type LineSeen, seenByInstrument } from "../reading-rules.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
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

export const LINE_READING_COLUMNS = {
  required: ["cassette_id", "line_id", "reader_id"],
  optional: [
    "method",
    "reading_no",
    "read_at",
    "minutes",
    "line_seen",
    "line_grade",
    "intensity",
    "blinded",
    "entered_at",
  ],
};

/** Reads the long form: one row for each line, reader and reading. Rows of one reading are put together. */
export function readLineReadings(table: Table, devices: Devices, context: Context): Readings {
  const find = deviceFinder(table, devices, context);
  const place = readingFinder(table, context);
  const take = lineReader(table, context);
  const list: Reading[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = find(row);
    if (device === null) continue;
    const line = take.lineOf(row);
    if (line === null) continue;
    const reading = place(row, device, list);
    if (reading !== null) take.into(reading, line, row);
  }
  return { table, list: keepFirstReadings(table, list, context) };
}

function readingFinder(table: Table, context: Context) {
  const { issues, kit } = context;
  const reader = texts(table, "reader_id");
  const method = words({ table, name: "method", issues, consequence: "row_set_aside" }, READING_METHODS);
  const number = wholeNumbers({ table, name: "reading_no", issues });
  return (row: number, device: Device, list: Reading[]): Reading | null => {
    const who = reader(row);
    if (who === null) {
      issues.add("blank_identifier", placeOf(table, row, "reader_id"), "a reader", "", "row_set_aside");
      setAside(table, row, "blank_identifier");
      return null;
    }
    const how = method(row) ?? (method.faulty(row) ? null : "eye");
    if (how === null) {
      setAside(table, row, "unknown_code");
      return null;
    }
    const which = number(row) ?? 1;
    for (const reading of device.readings) {
      if (reading.reader === who && reading.method === how && reading.number === which) return reading;
    }
    const reading = newReading(device, { reader: who, method: how, number: which }, row, kit.lines.length);
    device.readings.push(reading);
    list.push(reading);
    return reading;
  };
}

function lineReader(table: Table, context: Context) {
  const { issues, kit } = context;
  const line = texts(table, "line_id");
  const seen = words({ table, name: "line_seen", issues, consequence: "row_set_aside" }, LINE_SEEN);
  const grade = wholeNumbers({ table, name: "line_grade", issues });
  const intensity = numbers({ table, name: "intensity", issues, consequence: "row_set_aside" });
  const ids = kit.lines.map((entry) => entry.id);
  const reject = (row: number, rule: IssueRule, name: string, expected: string, received: unknown) => {
    issues.add(rule, placeOf(table, row, name), expected, received, "row_set_aside");
    setAside(table, row, rule);
  };
  const lineOf = (row: number): number | null => {
    const name = line(row);
    const index = name === null ? -1 : ids.indexOf(name);
    if (index >= 0) return index;
    if (name === null) reject(row, "blank_identifier", "line_id", "a line", "");
    else reject(row, "unknown_line", "line_id", `a line of the kit file${suggestion(name, ids)}`, name);
    return null;
  };
  /** What was seen, or `null` after setting the row aside. */
  const value = (reading: Reading, index: number, row: number): LineSeen | null => {
    const optical = reading.method === "optical";
    const measured = intensity(row);
    if (measured !== null && measured < 0) reject(row, "out_of_range", "intensity", "0 or more", measured);
    else if (intensity.faulty(row)) setAside(table, row, "not_a_number");
    else if (optical && measured !== null) {
      const cutoff = kit.instrument?.cutoffs[ids[index] ?? ""];
      if (cutoff !== undefined) return seenByInstrument(measured, cutoff);
      reject(row, "missing_value", "intensity", "an instrument with cut-offs in the kit file", measured);
    } else {
      const word = seen(row);
      if (word !== null) return word;
      if (seen.faulty(row)) setAside(table, row, "unknown_code");
      else reject(row, "missing_value", optical ? "intensity" : "line_seen", "what was seen of the line", "");
    }
    return null;
  };
  const into = (reading: Reading, index: number, row: number): void => {
    if ((reading.rows[index] ?? -1) >= 0) {
      reject(row, "duplicate_reading", "line_id", "each line once for each reading", line(row));
      return;
    }
    const found = value(reading, index, row);
    if (found === null) {
      reading.broken = true;
      return;
    }
    const graded = grade(row);
    if (graded !== null && seen(row) !== null && (graded === 0) !== (seen(row) === "absent")) {
      issues.add("grade_disagrees", placeOf(table, row, "line_grade"), "0 just where absent", graded, "kept");
    }
    reading.rows[index] = row;
    reading.seen[index] = found;
    keepIntensity(reading, index, intensity(row));
  };
  return { lineOf, into };
}
