import { drawsOf } from "./draws.ts";
import type { Device, Reading, Typed, World } from "./world.ts";

const COUNT = 3;
const HALF_AN_HOUR = 1800;

/** Planted: a few people without any line were tested again although the first device was valid. */
export function withNeedlessRepeats(seed: number, world: World): World {
  const draws = drawsOf(seed, "needless repeats");
  const readingsOf = new Map<Device, Reading[]>();
  for (const reading of world.readings) {
    readingsOf.set(reading.device, [...(readingsOf.get(reading.device) ?? []), reading]);
  }
  const noLine = ({ result }: Reading) => result.T1 === "nonreactive" && result.T2 === "nonreactive";
  const plain = (device: Device) =>
    device.attempt === 1 &&
    device.visit.number === 1 &&
    device.visit.person.alreadyEnrolledAs === null &&
    device.cause === null &&
    (readingsOf.get(device) ?? []).every(noLine);
  const repeated = draws.sample(world.devices.filter(plain), COUNT);
  const devices = repeated.map((device, index) => repeatOf(device, world.devices.length + index + 1));
  const readings = devices.flatMap((device) =>
    (readingsOf.get(device.repeatOf as Device) ?? []).map((reading) => later(reading, device)),
  );
  const typed: Typed[] = devices.map((device) => ({
    device,
    result: { T1: "nonreactive", T2: "nonreactive" },
  }));
  return {
    ...world,
    devices: [...world.devices, ...devices],
    readings: [...world.readings, ...readings],
    typed: [...world.typed, ...typed],
  };
}

function repeatOf(first: Device, number: number): Device {
  return {
    ...first,
    id: `D${String(number).padStart(5, "0")}`,
    attempt: 2,
    repeatOf: first,
    openedAt: first.openedAt + HALF_AN_HOUR,
    appliedAt: first.appliedAt + HALF_AN_HOUR,
    bufferAt: first.bufferAt + HALF_AN_HOUR,
  };
}

function later(reading: Reading, device: Device): Reading {
  const shift = (second: number | null) => (second === null ? null : second + HALF_AN_HOUR);
  return { ...reading, device, readAt: shift(reading.readAt), enteredAt: shift(reading.enteredAt) };
}
