import { placeOf, texts, words } from "../cells.ts";
import type { DeviceResult, InterpretationCheck } from "../model.ts";
import { suggestion } from "../nearest.ts";
import { rejecter } from "../reject.ts";
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
  const find = deviceFinder(table, devices, context);
  const read = typedReader(table, context);
  const reject = rejecter(table, context.issues);
  const seen = new Set<string>();
  const checks: InterpretationCheck[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = find(row);
    const typed = device === null ? null : read(row);
    if (device === null || typed === null) continue;
    const key = `${device.id}\u0001${typed.reader}\u0001${typed.analyte}`;
    const derived = derivedBy(device, typed.reader, typed.analyte);
    if (seen.has(key)) {
      reject(row, "duplicate_interpretation", "cassette_id", "each typed result once", device.id);
    } else if (derived === null) {
      reject(row, "typed_without_lines", "cassette_id", "a reading by this reader", device.id);
    } else {
      const check = { ...checkOf(device, derived, typed.analyte, typed.result), reader: typed.reader };
      checks.push(check);
      speakOf(table, row, check, derived, context);
    }
    seen.add(key);
  }
  return checks;
}

interface TypedResult {
  readonly reader: string;
  /** Place in the study file. */
  readonly analyte: number;
  readonly result: DeviceResult["result"];
}

/** Who typed what of which analyte; rows that don't say are set aside. */
function typedReader(table: Table, { issues, study }: Context) {
  const reader = texts(table, "reader_id");
  const analyte = texts(table, "analyte_id");
  const result = words({ table, name: "result_typed", issues, consequence: "row_set_aside" }, TYPED);
  const analytes = study.analytes.map((entry) => entry.id);
  const reject = rejecter(table, issues);
  return (row: number): TypedResult | null => {
    const who = reader(row);
    if (who === null) return reject(row, "blank_identifier", "reader_id", "a reader", "");
    const name = analyte(row) ?? "";
    const index = analytes.indexOf(name);
    if (index < 0) {
      const expected = `an analyte of the study file${suggestion(name, analytes)}`;
      return reject(row, "unknown_analyte", "analyte_id", expected, name);
    }
    const typed = result(row);
    if (typed !== null) return { reader: who, analyte: index, result: typed };
    if (!result.faulty(row)) return reject(row, "missing_value", "result_typed", "a result", "");
    setAside(table, row, "unknown_code");
    return null;
  };
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
