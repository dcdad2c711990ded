import { placeOf, texts, words } from "../cells.ts";
import type { DeviceResult, InterpretationCheck } from "../model.ts";
import { suggestion } from "../nearest.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import { deviceFinder } from "./device-finder.ts";
import type { Devices } from "./devices.ts";

export const INTERPRETATION_COLUMNS = {
  required: ["cassette_id", "reader_id", "analyte_id", "result_typed"],
  optional: [],
};

const TYPED = ["reactive", "nonreactive", "invalid"] as const;

/**
 * Holds typed results against the results derived from the same reader's lines. The derived result
 * always counts; the typed one shows whether the reader knew the rule.
 */
export function readInterpretations(table: Table, devices: Devices, context: Context): InterpretationCheck[] {
  const { issues, study } = context;
  const find = deviceFinder(table, devices, context);
  const reader = texts(table, "reader_id");
  const analyte = texts(table, "analyte_id");
  const typed = words({ table, name: "result_typed", issues, consequence: "row_set_aside" }, TYPED);
  const analytes = study.analytes.map((entry) => entry.id);
  const seen = new Set<string>();
  const checks: InterpretationCheck[] = [];
  const reject = (row: number, rule: Parameters<typeof issues.add>[0], name: string, expected: string) => {
    issues.add(
      rule,
      placeOf(table, row, name),
      expected,
      table.columns.get(name)?.(row) ?? "",
      "row_set_aside",
    );
    setAside(table, row, rule);
  };
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = find(row);
    if (device === null) continue;
    const who = reader(row);
    const index = analytes.indexOf(analyte(row) ?? "");
    if (who === null) reject(row, "blank_identifier", "reader_id", "a reader");
    else if (index < 0) {
      const hint = suggestion(analyte(row) ?? "", analytes);
      reject(row, "unknown_analyte", "analyte_id", `an analyte of the study file${hint}`);
    } else if (typed(row) === null) {
      if (typed.faulty(row)) setAside(table, row, "unknown_code");
      else reject(row, "missing_value", "result_typed", "a result");
    } else {
      const key = `${device.id}\u0001${who}\u0001${index}`;
      const derived = derivedBy(device, who, index);
      if (seen.has(key)) reject(row, "duplicate_interpretation", "cassette_id", "each typed result once");
      else if (derived === null)
        reject(row, "typed_without_lines", "cassette_id", "a reading by this reader");
      else {
        const check = checkOf(device, derived, index, typed(row) ?? "invalid");
        checks.push({ ...check, reader: who });
        speakOf(table, row, check, derived, context);
      }
      seen.add(key);
    }
  }
  return checks;
}

function derivedBy(device: Device, reader: string, analyte: number): DeviceResult | null {
  const own = device.readings.filter((reading) => reading.reader === reader);
  const byEye = own.find((reading) => reading.method !== "optical") ?? own[0];
  return byEye?.results[analyte] ?? device.recorded?.[analyte] ?? null;
}

function checkOf(
  device: Device,
  derived: DeviceResult,
  analyte: number,
  typed: DeviceResult["result"],
): InterpretationCheck {
  const others = device.readings.filter((reading) => reading.reader !== derived.reader);
  const other = others.find((reading) => reading.method !== "optical") ?? others[0];
  return {
    device: device.id,
    reader: derived.reader,
    analyte: derived.analyte,
    typed,
    derived: derived.result,
    other: other?.results[analyte]?.result ?? null,
  };
}

function speakOf(
  table: Table,
  row: number,
  check: InterpretationCheck,
  derived: DeviceResult,
  { issues }: Context,
): void {
  if (check.typed === check.derived) return;
  const place = placeOf(table, row, "result_typed");
  const withoutControl = check.typed === "reactive" && derived.reason === "control_absent";
  const rule = withoutControl ? "typed_reactive_without_control" : "typed_result_differs";
  issues.add(rule, place, check.derived, check.typed, "kept");
}
