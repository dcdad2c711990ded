import type { DeviceResult, Reread } from "../../src/records/model.ts";

/** A made-up reading of one device; reactive, clear, in time and by the first reader unless told otherwise. */
export function deviceResult(changes: Partial<DeviceResult> & Pick<DeviceResult, "device">): DeviceResult {
  return {
    person: changes.device,
    visit: 1,
    specimen: "serum",
    analyte: "one",
    kit: "made-up-kit",
    reader: "R1",
    method: "eye",
    attempt: 1,
    result: "reactive",
    reason: changes.result === "invalid" ? "control_absent" : null,
    lineWithoutControl: false,
    faint: false,
    window: "in",
    minutes: 17,
    intensity: null,
    site: "north",
    lot: "L1",
    operator: "O1",
    ...changes,
  };
}

/** What readers of a row of devices saw: `+` reactive, `-` non-reactive, `!` invalid, a space for not read. */
const SEEN = { "+": "reactive", "-": "nonreactive", "!": "invalid" } as const;

/** One string per reader, one letter per device: devices d1, d2, … of people d1, d2, … */
export function readings(
  byReader: Readonly<Record<string, string>>,
  changes: (device: number, reader: string) => Partial<DeviceResult> = () => ({}),
): DeviceResult[] {
  return Object.entries(byReader).flatMap(([reader, letters]) =>
    [...letters].flatMap((letter, index) => {
      const result = SEEN[letter as keyof typeof SEEN];
      if (result === undefined) return [];
      return [deviceResult({ device: `d${index + 1}`, reader, result, ...changes(index + 1, reader) })];
    }),
  );
}

/** One reader's two readings of device and person `name`. */
export function reread(
  name: string,
  first: Reread["first"]["result"],
  second: Reread["first"]["result"],
): Reread {
  return {
    device: name,
    person: name,
    analyte: "one",
    kit: "made-up-kit",
    specimen: "serum",
    reader: "R1",
    first: { result: first, window: "in", minutes: 17 },
    second: { result: second, window: "late", minutes: 60 },
  };
}

/** Line-level records, so that line strength is known. */
export const lineRecords = {
  shape: "lines" as const,
  participants: "participants.csv",
  specimens: "specimens.csv",
  index_tests: "index_tests.csv",
  line_readings: "line_readings.csv",
  reference_tests: "reference_tests.csv",
};
