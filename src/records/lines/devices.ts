import { placeOf, texts, wholeNumbers, words } from "../cells.ts";
import type { IssueRule } from "../issue-rules.ts";
import type { LineKit } from "../kit.ts";
import { type Moment, moment } from "../moments.ts";
import { rejecter } from "../reject.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import { type DeviceChecks, type DeviceSources, type DeviceTimes, deviceChecks } from "./device-checks.ts";
import { kitChooser, namesOf, refusedType } from "./device-kit.ts";
import type { Specimen } from "./specimens.ts";

export const DEVICE_COLUMNS = {
  required: ["cassette_id", "specimen_id"],
  optional: [
    "kit_id",
    "lot_id",
    "operator_id",
    "attempt_no",
    "repeat_of",
    "pouch_opened_at",
    "specimen_applied_at",
    "buffer_applied_at",
    "specimen_volume_ul",
    "buffer_drops",
    "room_temp_c",
    "room_rh_pct",
    "invalid_reason",
  ],
};

const INVALID_REASONS = ["no_control", "no_flow", "smear", "leak", "clot", "other"] as const;

export interface Devices {
  readonly table: Table;
  readonly byId: ReadonlyMap<string, Device>;
  /** Identifiers whose rows were all set aside as faulty, with the reason. */
  readonly faulty: ReadonlyMap<string, string>;
}

/** Reads the index tests: one device for each row, its steps and conditions held against its kit file. */
export function readDevices(table: Table, sources: DeviceSources, context: Context): Devices {
  const faulty = new Map<string, string>();
  const byId = new Map<string, Device>();
  const read = deviceReader(table, sources, context, faulty);
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const device = read(row, byId);
    if (device !== null) byId.set(device.id, device);
  }
  checkRepeats(table, byId, context);
  for (const { reason, row } of byId.values()) if (reason !== null) setAside(table, row, reason);
  return { table, byId, faulty };
}

function deviceReader(table: Table, sources: DeviceSources, context: Context, faulty: Map<string, string>) {
  const { issues } = context;
  const identify = identifier(table, sources, context, faulty);
  const lotOf = texts(table, "lot_id");
  const operatorOf = texts(table, "operator_id");
  const attempt = wholeNumbers({ table, name: "attempt_no", issues });
  const invalid = words({ table, name: "invalid_reason", issues }, INVALID_REASONS);
  const times = timesReader(table, context);
  const checks: DeviceChecks = deviceChecks(table, sources, context);
  return (row: number, known: ReadonlyMap<string, Device>): Device | null => {
    const found = identify(row, known);
    if (found === null) return null;
    const { id, kit, specimen } = found;
    const lot = lotOf(row);
    const operator = operatorOf(row);
    const at = times(row);
    checks(row, { kit, specimen, lot, operator, ...at });
    return {
      id,
      row,
      kit,
      specimen,
      attempt: attempt(row) ?? 1,
      lot,
      operator,
      timedFrom: kit.timed_from === "specimen_applied" ? at.appliedAt : at.bufferAt,
      appliedAt: at.appliedAt ?? at.bufferAt,
      recordedInvalid: invalid(row) ?? (invalid.faulty(row) ? "other" : null),
      readings: [],
      again: NO_READINGS,
      recorded: null,
      reason: specimen.reason ?? unanalysedType(specimen, context),
    };
  };
}

const NO_READINGS: readonly Reading[] = [];

interface Identified {
  readonly id: string;
  readonly kit: LineKit;
  readonly specimen: Specimen;
}

/** Which device, kit and specimen a row is of; rows of which that can't be said are set aside. */
function identifier(
  table: Table,
  { specimens }: DeviceSources,
  context: Context,
  faulty: Map<string, string>,
) {
  const id = texts(table, "cassette_id");
  const specimenId = texts(table, "specimen_id");
  const kitOf = kitChooser(table, context);
  const reject = rejecter(table, context.issues);
  const once = "a device used once, on one specimen";
  return (row: number, known: ReadonlyMap<string, Device>): Identified | null => {
    const name = id(row);
    if (name === null) return reject(row, "blank_identifier", "cassette_id", "a device", "");
    const specimenName = specimenId(row);
    const specimen = specimens.byId.get(specimenName ?? "");
    const twin = known.get(name);
    if (twin !== undefined) {
      const rule = sharedBy(twin, specimen);
      if (rule !== null && twin.reason !== rule) {
        reject(twin.row, rule, "cassette_id", once, name);
        twin.reason = rule;
      }
      return reject(row, rule ?? "duplicate_device", "cassette_id", once, name);
    }
    if (faulty.has(name)) return reject(row, "duplicate_device", "cassette_id", once, name);
    const lose = (rule: IssueRule, column: string, expected: string, received: string | null) => {
      faulty.set(name, rule);
      return reject(row, rule, column, expected, received ?? "");
    };
    if (specimenName === null) return lose("blank_identifier", "specimen_id", "a specimen", "");
    const kit = kitOf(row);
    if (typeof kit === "string") return lose("unknown_kit", "kit_id", namesOf(context.kits), kit);
    if (specimen !== undefined) {
      const refused = refusedType(kit, specimen, context);
      if (refused === null) return { id: name, kit, specimen };
      return lose("specimen_not_of_kit", "specimen_id", refused, specimen.type);
    }
    const lost = specimens.faulty.get(specimenName);
    if (lost === undefined) {
      return lose("unknown_specimen", "specimen_id", specimens.hint(specimenName), specimenName);
    }
    setAside(table, row, lost);
    faulty.set(name, lost);
    return null;
  };
}

/**
 * One identifier on two specimens: the readings cannot be attributed, so that all rows of it are set
 * aside, by the rule returned. Twice on the same specimen (`null`): the first row counts.
 */
function sharedBy(twin: Device, specimen: Specimen | undefined): IssueRule | null {
  if (specimen === undefined || specimen === twin.specimen) return null;
  return specimen.person === twin.specimen.person ? "duplicate_device" : "device_for_two_people";
}

function unanalysedType(specimen: Specimen, { study }: Context): string | null {
  return study.specimens.some((entry) => entry.type === specimen.type) ? null : "unknown_specimen_type";
}

function timesReader(table: Table, { issues }: Context) {
  const one = (name: string) => {
    const cells = texts(table, name);
    return (row: number): Moment | null => {
      const text = cells(row);
      if (text === null) return null;
      const read = moment(text);
      if (read === null) {
        const place = placeOf(table, row, name);
        issues.add("not_a_date", place, "a time as 2026-04-01T10:15", text, "value_ignored");
      }
      return read;
    };
  };
  const opened = one("pouch_opened_at");
  const applied = one("specimen_applied_at");
  const buffer = one("buffer_applied_at");
  return (row: number): DeviceTimes => ({
    openedAt: opened(row),
    appliedAt: applied(row),
    bufferAt: buffer(row),
  });
}

/** `repeat_of` names a device of the table; no more attempts than its kit file allows. */
function checkRepeats(table: Table, byId: ReadonlyMap<string, Device>, { issues }: Context): void {
  const repeatOf = texts(table, "repeat_of");
  for (const device of byId.values()) {
    const first = repeatOf(device.row);
    if (first !== null && !byId.has(first)) {
      const place = placeOf(table, device.row, "repeat_of");
      issues.add("unknown_repeat", place, "a device of this table", first, "value_ignored");
    }
    const most = device.kit.repeat.max_attempts;
    if (device.reason === null && device.attempt > most) {
      const place = placeOf(table, device.row, "attempt_no");
      issues.add("too_many_attempts", place, `at most ${most}`, device.attempt, "row_set_aside");
      device.reason = "too_many_attempts";
    }
  }
}
