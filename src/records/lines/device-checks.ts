import { type CellReader, numbers, placeOf, texts } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import { elapsed, type Moment } from "../moments.ts";
import { suggestion } from "../nearest.ts";
import type { Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Lots, Operators } from "./lots-operators.ts";
import type { Specimen, Specimens } from "./specimens.ts";

export interface DeviceSources {
  readonly specimens: Specimens;
  readonly lots: Lots | null;
  readonly operators: Operators | null;
}

export interface DeviceTimes {
  readonly openedAt: Moment | null;
  readonly appliedAt: Moment | null;
  readonly bufferAt: Moment | null;
}

interface Facts extends DeviceTimes {
  readonly kit: LineKit;
  readonly specimen: Specimen;
  readonly lot: string | null;
  readonly operator: string | null;
}

/** Looks at one row of the index tests; faults become issues, the row is kept. */
export type DeviceChecks = (row: number, facts: Facts) => void;

/** Checks of conditions and steps against the device's kit file, lots and operators. None sets a row aside. */
export function deviceChecks(table: Table, sources: DeviceSources, context: Context): DeviceChecks {
  const checks = [
    lotCheck(table, sources, context),
    operatorCheck(table, sources, context),
    stepCheck(table, context),
    amountCheck(table, context),
    roomCheck(table, context),
  ];
  return (row, facts) => {
    for (const check of checks) check(row, facts);
  };
}

function lotCheck(table: Table, { lots }: DeviceSources, { issues }: Context): DeviceChecks {
  if (lots === null) return () => undefined;
  const known = [...lots.rowOf.keys()];
  return (row, { kit, lot, appliedAt, bufferAt, openedAt }) => {
    if (lot === null) return;
    if (!lots.rowOf.has(lot)) {
      const expected = `a lot of the lots table${suggestion(lot, known)}`;
      issues.add("unknown_lot", placeOf(table, row, "lot_id"), expected, lot, "kept");
      return;
    }
    const other = lots.kitOf.get(lot) ?? kit.id;
    if (other !== kit.id) {
      issues.add("lot_of_other_kit", placeOf(table, row, "lot_id"), `a lot of ${kit.id}`, lot, "kept");
    }
    const usedOn = (appliedAt ?? bufferAt ?? openedAt)?.day ?? null;
    const expiry = lots.expiry.get(lot) ?? null;
    if (usedOn !== null && expiry !== null && usedOn > expiry) {
      const place = placeOf(table, row, "specimen_applied_at");
      issues.add("expired_lot", place, `use by ${expiry}, the expiry of ${lot}`, usedOn, "kept");
    }
  };
}

function operatorCheck(table: Table, { operators }: DeviceSources, { issues }: Context): DeviceChecks {
  if (operators === null) return () => undefined;
  const known = [...operators.rowOf.keys()];
  return (row, { operator, appliedAt, bufferAt }) => {
    if (operator === null) return;
    const trainedOn = operators.trainedOn.get(operator);
    const usedOn = (appliedAt ?? bufferAt)?.day ?? null;
    if (trainedOn !== undefined && usedOn !== null && usedOn < trainedOn) {
      const place = placeOf(table, row, "operator_id");
      issues.add("untrained_operator", place, `used after training on ${trainedOn}`, usedOn, "kept");
    }
    if (operators.rowOf.has(operator)) return;
    const expected = `an operator of the operators table${suggestion(operator, known)}`;
    issues.add("unknown_operator", placeOf(table, row, "operator_id"), expected, operator, "kept");
  };
}

/** Pouch opened, specimen applied, buffer applied, in this order; use soon after opening. */
function stepCheck(table: Table, { issues }: Context): DeviceChecks {
  const opened = texts(table, "pouch_opened_at");
  const buffer = texts(table, "buffer_applied_at");
  return (row, { kit, openedAt, appliedAt, bufferAt }) => {
    const within = kit.use_within_minutes;
    const place = (name: string) => placeOf(table, row, name);
    const open = openedAt === null || appliedAt === null ? null : elapsed(openedAt, appliedAt);
    if (open !== null && open.minutes < 0) {
      const expected = "opened before the specimen was applied";
      issues.add("steps_out_of_order", place("pouch_opened_at"), expected, opened(row), "kept");
    } else if (open !== null && within !== undefined && open.minutes > within) {
      const expected = `within ${within} minutes of opening`;
      issues.say("used_too_late", place("specimen_applied_at"), expected, `${open.minutes} minutes`, "kept");
    }
    const dwell = appliedAt === null || bufferAt === null ? null : elapsed(appliedAt, bufferAt);
    if (dwell !== null && dwell.minutes < 0) {
      const expected = "buffer applied after the specimen";
      issues.add("steps_out_of_order", place("buffer_applied_at"), expected, buffer(row), "kept");
    }
  };
}

function amountCheck(table: Table, { issues, kits }: Context): DeviceChecks {
  const drops = numbers({ table, name: "buffer_drops", issues });
  const volume = numbers({ table, name: "specimen_volume_ul", issues });
  const volumes = kits.map((kit) => new Map(kit.specimens.map((entry) => [entry.type, entry.volume_ul])));
  return (row, { kit, specimen }) => {
    const limits = volumes[kits.indexOf(kit)];
    const inDrops = outside(drops, row, kit.buffer_drops);
    if (inDrops !== null) {
      issues.add("drops_out_of_range", placeOf(table, row, "buffer_drops"), inDrops, drops(row), "kept");
    }
    const inVolume = outside(volume, row, limits?.get(specimen.type));
    if (inVolume !== null) {
      const place = placeOf(table, row, "specimen_volume_ul");
      issues.add("volume_out_of_range", place, `${inVolume} microlitres`, volume(row), "kept");
    }
  };
}

/** The limits in words where the value is outside them. */
function outside(
  value: CellReader<number>,
  row: number,
  limits: { readonly from: number; readonly to: number } | undefined,
): string | null {
  const found = value(row);
  if (found === null || limits === undefined) return null;
  return found < limits.from || found > limits.to ? `${limits.from} to ${limits.to}` : null;
}

const HOTTEST_ROOM = 60;
const COLDEST_ROOM = -10;

function roomCheck(table: Table, { issues }: Context): DeviceChecks {
  const temperature = numbers({ table, name: "room_temp_c", issues });
  const humidity = numbers({ table, name: "room_rh_pct", issues });
  return (row, { kit }) => {
    const degrees = temperature(row);
    const place = () => placeOf(table, row, "room_temp_c");
    if (degrees !== null && degrees > HOTTEST_ROOM) {
      const celsius = Math.round(((degrees - 32) * 50) / 9) / 10;
      const expected = `degrees Celsius, at most ${HOTTEST_ROOM} (${degrees} °F would be ${celsius} °C)`;
      issues.add("fahrenheit", place(), expected, degrees, "value_ignored");
    } else if (degrees !== null && degrees < COLDEST_ROOM) {
      issues.add("out_of_range", place(), `${COLDEST_ROOM} to ${HOTTEST_ROOM} °C`, degrees, "value_ignored");
    } else {
      const limits = outside(temperature, row, kit.temperature_c);
      if (limits !== null) issues.add("temperature_out_of_range", place(), `${limits} °C`, degrees, "kept");
    }
    const percent = humidity(row);
    if (percent !== null && (percent < 0 || percent > 100)) {
      const column = placeOf(table, row, "room_rh_pct");
      issues.add("out_of_range", column, "0 to 100 percent", percent, "value_ignored");
    }
  };
}
