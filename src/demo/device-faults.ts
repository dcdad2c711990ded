import { dateOf, timestamp } from "./calendar.ts";
import { type Draws, drawsOf } from "./draws.ts";
import { type Fault, type FaultKind, PLANTED } from "./fault.ts";
import { LOTS } from "./scenario.ts";
import type { Row, Written } from "./tables.ts";
import type { Device, Reading, World } from "./world.ts";

const MINUTE = 60;

/** Writes the faults that stand in rows of devices and of their readings. */
export function plantDeviceFaults(seed: number, world: World, written: Written): Fault[] {
  const ground = new Ground(drawsOf(seed, "faults"), world);
  return [
    ...plantDuplicates(ground, written),
    ...plantEarlyClock(ground, written),
    ...plantFahrenheit(ground, written),
    ...plantExpired(ground, written),
    ...plantCopies(ground, written, world),
    ...plantDrops(ground, written),
  ];
}

/** First devices of first visits, valid, each for one fault at most. */
class Ground {
  private readonly free: Set<Device>;
  constructor(
    readonly draws: Draws,
    world: World,
  ) {
    const repeated = new Set(world.devices.map((device) => device.repeatOf));
    this.free = new Set(
      world.devices.filter(
        (device) =>
          device.attempt === 1 &&
          device.cause === null &&
          device.visit.number === 1 &&
          device.visit.person.alreadyEnrolledAs === null &&
          !repeated.has(device),
      ),
    );
  }

  take(kind: FaultKind, fits: (device: Device) => boolean = () => true): Device[] {
    const taken = this.draws.sample([...this.free].filter(fits), PLANTED[kind]);
    for (const device of taken) this.free.delete(device);
    return taken;
  }
}

function deviceRowOf({ rowsOf }: Written, device: Device): Row {
  return rowsOf.device.get(device) as Row;
}

/** The same device entered twice: the second row stands at the end of the table. */
function plantDuplicates(ground: Ground, written: Written): Fault[] {
  return ground.take("duplicate_cassette").map((device) => {
    const again = { ...deviceRowOf(written, device) };
    written.tables.index_tests.rows.push(again);
    return {
      kind: "duplicate_cassette",
      table: "index_tests",
      column: "cassette_id",
      rows: [again],
      id: device.id,
    };
  });
}

/** The first reader's hour is one too early, so that the result was read before the specimen was applied. */
function plantEarlyClock(ground: Ground, written: Written): Fault[] {
  const firstReadings = new Map(
    [...written.rowsOf.reading.keys()].filter(isFirst).map((one) => [one.device, one]),
  );
  const fits = (device: Device) => {
    const readAt = firstReadings.get(device)?.readAt ?? null;
    return readAt !== null && readAt - 60 * MINUTE < device.appliedAt;
  };
  return ground.take("read_before_applied", fits).map((device) => {
    const reading = firstReadings.get(device) as Reading;
    const rows = written.rowsOf.reading.get(reading) as readonly Row[];
    for (const row of rows) row.read_at = timestamp((reading.readAt as number) - 60 * MINUTE);
    return {
      kind: "read_before_applied",
      table: "line_readings",
      column: "read_at",
      rows,
      id: device.id,
      reading,
    };
  });
}

function isFirst(reading: Reading): boolean {
  return reading.reader === "R1";
}

function plantFahrenheit(ground: Ground, written: Written): Fault[] {
  return ground
    .take("fahrenheit", (device) => device.temperature >= 18)
    .map((device) => {
      const row = deviceRowOf(written, device);
      row.room_temp_c = ((device.temperature * 9) / 5 + 32).toFixed(1);
      return { kind: "fahrenheit", table: "index_tests", column: "room_temp_c", rows: [row], id: device.id };
    });
}

/** Old devices of the first lot, used up after its expiry; on people whose lines do not depend on the lot. */
function plantExpired(ground: Ground, written: Written): Fault[] {
  const [old] = LOTS;
  const fits = ({ lot, visit, specimen }: Device) =>
    lot === "Q-102" &&
    dateOf(visit.day) > old.expiry &&
    specimen.strength.T1 === null &&
    specimen.strength.T2 === null;
  return ground.take("expired_lot", fits).map((device) => {
    const row = deviceRowOf(written, device);
    row.lot_id = old.lot;
    return { kind: "expired_lot", table: "index_tests", column: "lot_id", rows: [row], id: device.id };
  });
}

/** The second reader's entry is a minute earlier than the first reader's, to the second. */
function plantCopies(ground: Ground, written: Written, world: World): Fault[] {
  const bySecond = new Map(
    world.readings.filter(({ reader }) => reader === "R2").map((one) => [one.device, one]),
  );
  const byFirst = new Map(world.readings.filter(isFirst).map((one) => [one.device, one]));
  const copiedAt = (device: Device) => (byFirst.get(device)?.enteredAt ?? 0) - MINUTE;
  const fits = (device: Device) =>
    bySecond.has(device) && copiedAt(device) > (bySecond.get(device)?.readAt ?? 0);
  return ground.take("second_reader_copied", fits).map((device) => {
    const rows = written.rowsOf.reading.get(bySecond.get(device) as Reading) as readonly Row[];
    for (const row of rows) row.entered_at = timestamp(copiedAt(device));
    return {
      kind: "second_reader_copied",
      table: "line_readings",
      column: "entered_at",
      rows,
      id: device.id,
    };
  });
}

function plantDrops(ground: Ground, written: Written): Fault[] {
  return ground.take("drops_out_of_range").map((device) => {
    const row = deviceRowOf(written, device);
    row.buffer_drops = ground.draws.pick(["1", "5", "6"]);
    return {
      kind: "drops_out_of_range",
      table: "index_tests",
      column: "buffer_drops",
      rows: [row],
      id: device.id,
    };
  });
}
