import { OPERATORS } from "./operators.ts";
import type { Device, OperatorId, Reading, World } from "./world.ts";

/** What one operator did, in devices; true conditions, not reference results. */
export interface OperatorTruth {
  readonly operator: OperatorId;
  readonly devices: number;
  readonly firstInvalid: number;
  readonly dropsOtherThanThree: number;
  readonly lookedLate: number;
  /** Test lines of people who have the condition, on valid devices: all, and those the operator saw. */
  readonly trueLines: number;
  readonly trueLinesSeen: number;
}

export function operatorTruths(world: World): OperatorTruth[] {
  const byFirst = new Map(
    world.readings.filter(({ reader }) => reader === "R1").map((one) => [one.device, one]),
  );
  return OPERATORS.map(({ id }) => {
    const devices = world.devices.filter(({ visit }) => visit.operator === id);
    const first = devices.filter(({ attempt }) => attempt === 1);
    const lines = devices.flatMap((device) => trueLines(device, byFirst.get(device) as Reading));
    return {
      operator: id,
      devices: devices.length,
      firstInvalid: first.filter(({ cause }) => cause !== null).length,
      dropsOtherThanThree: devices.filter(({ drops }) => drops !== 3).length,
      lookedLate: devices.filter(({ lookedAfter }) => lookedAfter > 20).length,
      trueLines: lines.length,
      trueLinesSeen: lines.filter((seen) => seen).length,
    };
  });
}

function trueLines(device: Device, reading: Reading): boolean[] {
  if (device.cause !== null) return [];
  const { has } = device.visit.person;
  const lines: boolean[] = [];
  if (has.hbsag) lines.push(reading.result.T1 === "reactive");
  if (has.anti_hcv) lines.push(reading.result.T2 === "reactive");
  return lines;
}
