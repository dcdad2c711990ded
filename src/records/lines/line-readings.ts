import { numbers, placeOf, texts, wholeNumbers, words } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import { suggestion } from "../nearest.ts";
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
    const line = take.lineOf(row, device);
    if (line === null) continue;
    const reading = place(row, device, list);
    if (reading !== null) take.into(reading, line, row);
  }
  return { table, ...inReadingOrder(table, list, context) };
}

function readingFinder(table: Table, context: Context) {
  const { issues } = context;
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
    const reading = newReading(device, { reader: who, method: how, number: which }, row);
    device.readings.push(reading);
    list.push(reading);
    return reading;
  };
}

function lineReader(table: Table, context: Context) {
  const { issues } = context;
  const grade = wholeNumbers({ table, name: "line_grade", issues });
  const word = texts(table, "line_seen");
  const look = seenReader(table, context);
  const reject = rejecter(table, issues);
  const into = (reading: Reading, index: number, row: number): void => {
    if ((reading.rows[index] ?? -1) >= 0) {
      const expected = "each line once for each reading";
      reject(row, "duplicate_reading", "line_id", expected, reading.device.kit.lines[index]?.id);
      return;
    }
    const found = look(reading, index, row);
    if (found === null) {
      reading.broken = true;
      return;
    }
    const graded = grade(row);
    if (graded !== null && (graded < 0 || graded > 4)) {
      issues.add("out_of_range", placeOf(table, row, "line_grade"), "0 to 4", graded, "value_ignored");
    } else if (graded !== null && word(row) !== null && (graded === 0) !== (found.seen === "absent")) {
      issues.add("grade_disagrees", placeOf(table, row, "line_grade"), "0 just where absent", graded, "kept");
    }
    reading.rows[index] = row;
    reading.seen[index] = found.seen;
    keepIntensity(reading, index, found.intensity);
  };
  return { lineOf: lineFinder(table, context), into };
}

/** The line of the device's kit that a row is of. */
function lineFinder(table: Table, { issues, kits }: Context) {
  const line = texts(table, "line_id");
  const linesOf = new Map(kits.map((kit) => [kit, kit.lines.map((entry) => entry.id)]));
  let last: LineKit | null = null;
  let ids: string[] = [];
  const reject = rejecter(table, issues);
  return (row: number, { kit }: Device): number | null => {
    if (kit !== last) {
      last = kit;
      ids = linesOf.get(kit) ?? [];
    }
    const name = line(row);
    if (name === null) return reject(row, "blank_identifier", "line_id", "a line", "");
    const index = ids.indexOf(name);
    if (index >= 0) return index;
    return reject(row, "unknown_line", "line_id", `a line of the kit file${suggestion(name, ids)}`, name);
  };
}

interface Seen {
  readonly seen: LineSeen;
  readonly intensity: number | null;
}

/** What was seen of a line: by an instrument's intensity and cut-off, else by the word written down. */
function seenReader(table: Table, { issues }: Context) {
  const seen = words({ table, name: "line_seen", issues, consequence: "row_set_aside" }, LINE_SEEN);
  const intensity = numbers({ table, name: "intensity", issues, consequence: "row_set_aside" });
  const reject = rejecter(table, issues);
  const measured = (kit: LineKit, index: number, row: number, value: number): Seen | null => {
    if (value < 0) return reject(row, "out_of_range", "intensity", "0 or more", value);
    const cutoff = kit.instrument?.cutoffs[kit.lines[index]?.id ?? ""];
    if (cutoff !== undefined) return { seen: seenByInstrument(value, cutoff), intensity: value };
    return reject(row, "missing_value", "intensity", "cut-offs of an instrument in the kit file", value);
  };
  return (reading: Reading, index: number, row: number): Seen | null => {
    const optical = reading.method === "optical";
    const value = optical ? intensity(row) : null;
    if (value !== null) return measured(reading.device.kit, index, row, value);
    const word = seen(row);
    if (optical && intensity.faulty(row)) setAside(table, row, "not_a_number");
    else if (word !== null) return { seen: word, intensity: null };
    else if (seen.faulty(row)) setAside(table, row, "unknown_code");
    else reject(row, "missing_value", optical ? "intensity" : "line_seen", "what was seen of the line", "");
    return null;
  };
}
