import { operatorOf } from "./devices.ts";
import { type Draws, drawsOf } from "./draws.ts";
import { BACKGROUND, EYE, HEAT, LINES, OPTICAL, READING_TIME, STRONGER_LOT, TYPING } from "./scenario.ts";
import type { ByLine, Device, Effects, LineId, Reading, Result, Seen, Typed } from "./world.ts";

const MINUTE = 60;
const FULL_TIME = 15;

export interface Readings {
  readonly readings: readonly Reading[];
  readonly typed: readonly Typed[];
}

/** Two blinded eye readers and the optical reader look at each device; the first reader types a result. */
export function readDevices(
  seed: number,
  devices: readonly Device[],
  effects: Effects,
  firstReaderOnly = false,
): Readings {
  const first = drawsOf(seed, "first reader");
  const second = drawsOf(seed, "second reader");
  const optical = drawsOf(seed, "optical reader");
  const typing = drawsOf(seed, "typing");
  const readings: Reading[] = [];
  const typed: Typed[] = [];
  for (const device of devices) {
    const byFirst = readFirst(first, device, effects);
    readings.push(byFirst);
    if (firstReaderOnly) continue;
    if (!second.chance(EYE.secondMissing)) readings.push(readSecond(second, device, byFirst, effects));
    readings.push(readOptically(optical, device, effects));
    typed.push({ device, result: typeResult(typing, device, byFirst.result) });
  }
  return { readings, typed };
}

/** How the colour grows: 0 at 15 minutes, in log10 units. */
export function timeFactor(minutes: number): number {
  return Math.log10((1 - Math.exp(-minutes / 10)) / (1 - Math.exp(-FULL_TIME / 10)));
}

/** What moves a true line of this device from the specimen's own strength, log10 units. */
export function lineShift(device: Device, line: LineId, effects: Effects): number {
  const heated = device.lot === HEAT.lot && line === HEAT.line && device.visit.day >= HEAT.fromDay;
  const stronger = device.lot === STRONGER_LOT.lot && line === STRONGER_LOT.line;
  const lot = (heated ? HEAT.shift : 0) + (stronger ? STRONGER_LOT.shift : 0);
  return lot + effects.site[device.visit.person.site][line];
}

/** What the first reader's eye needs, log10 units. */
export function firstReaderThreshold(device: Device, line: LineId, effects: Effects): number {
  const operator = operatorOf(device.visit);
  return EYE.R1 + operator.missesFaint + (effects.operator.get(operator.id)?.[line] ?? 0);
}

/** Line strength at the moment of looking: true lines grow with time, the background drifts when late. */
function levelAt(device: Device, line: LineId, minutes: number, effects: Effects): number {
  const strength = device.specimen.strength[line];
  if (strength !== null) return strength + timeFactor(minutes) + lineShift(device, line, effects);
  return device.background[line] + BACKGROUND.driftPerMinuteAfter20 * Math.max(0, minutes - 20);
}

function readFirst(draws: Draws, device: Device, effects: Effects): Reading {
  const threshold = (line: LineId) => firstReaderThreshold(device, line, effects);
  const seen = lookAt(draws, device, device.lookedAfter, effects, threshold);
  const readAt = writeDownTime(draws, device);
  const lookedAt = device.bufferAt + Math.floor(device.lookedAfter * MINUTE);
  const enteredAt = Math.max(lookedAt, readAt ?? lookedAt) + draws.whole(30, 240);
  return { device, reader: "R1", readAt, enteredAt, ...seen, intensity: null };
}

function readSecond(draws: Draws, device: Device, byFirst: Reading, effects: Effects): Reading {
  const minutes = device.lookedAfter + draws.uniform(0.4, 2);
  const seen = lookAt(draws, device, minutes, effects, () => EYE.R2);
  const readAt = device.bufferAt + Math.floor(minutes * MINUTE);
  const enteredAt = Math.max(readAt, byFirst.enteredAt ?? readAt) + draws.whole(20, 300);
  return { device, reader: "R2", readAt, enteredAt, ...seen, intensity: null };
}

/** Share of devices that the first reader looks at a second time, and how many minutes later. */
const SECOND_LOOK = { share: 0.4, afterFrom: 10, afterTo: 20 } as const;

/**
 * The first reader's second look at some of the devices, 10 to 20 minutes after the first: true lines
 * have grown, and the background of negatives has drifted, so that late false lines appear.
 */
export function readAgain(seed: number, readings: readonly Reading[], effects: Effects): Reading[] {
  const draws = drawsOf(seed, "second look");
  return readings
    .filter(({ reader }) => reader === "R1" && draws.chance(SECOND_LOOK.share))
    .map(({ device, enteredAt }) => {
      const minutes = device.lookedAfter + draws.uniform(SECOND_LOOK.afterFrom, SECOND_LOOK.afterTo);
      const threshold = (line: LineId) => firstReaderThreshold(device, line, effects);
      const seen = lookAt(draws, device, minutes, effects, threshold);
      const readAt = device.bufferAt + Math.floor(minutes * MINUTE);
      const entered = Math.max(readAt, enteredAt ?? readAt) + draws.whole(20, 120);
      return { device, reader: "R1", readAt, enteredAt: entered, ...seen, intensity: null };
    });
}

function lookAt(
  draws: Draws,
  device: Device,
  minutes: number,
  effects: Effects,
  threshold: (line: LineId) => number,
): Pick<Reading, "control" | "seen" | "result"> {
  const look = (line: LineId): Seen => {
    const above = levelAt(device, line, minutes, effects) + draws.normal(0, EYE.deviation) - threshold(line);
    if (above <= 0) return "absent";
    return above < EYE.faintBelow ? "faint" : "clear";
  };
  const seen = { T1: look("T1"), T2: look("T2") };
  if (device.cause === null) return valid(seen);
  if (device.cause === "smear") {
    return {
      control: "clear",
      seen: { T1: "unreadable", T2: "unreadable" },
      result: bothLines("invalid"),
    };
  }
  const T1 = device.lineWithoutControl ? "clear" : "absent";
  return { control: "absent", seen: { T1, T2: "absent" }, result: bothLines("invalid") };
}

function valid(seen: ByLine<Seen>): Pick<Reading, "control" | "seen" | "result"> {
  const result = (line: LineId): Result => (seen[line] === "absent" ? "nonreactive" : "reactive");
  return { control: "clear", seen, result: { T1: result("T1"), T2: result("T2") } };
}

function bothLines(result: Result): ByLine<Result> {
  return { T1: result, T2: result };
}

/** The written time: to the second, or the pre-printed 15 or 20 minutes, or none. */
function writeDownTime(draws: Draws, device: Device): number | null {
  const minutes = device.lookedAfter;
  const rounded = draws.chance(READING_TIME.rounded) && minutes < READING_TIME.roundedBelow;
  if (draws.chance(READING_TIME.missing)) return null;
  if (rounded) return device.bufferAt + (minutes < 17.5 ? 15 : 20) * MINUTE;
  return device.bufferAt + Math.floor(minutes * MINUTE);
}

function readOptically(draws: Draws, device: Device, effects: Effects): Reading {
  const readAt = device.bufferAt + Math.floor(device.lookedAfter * MINUTE);
  const intensity = opticalIntensity(draws, device, effects);
  const controlled = intensity.C >= OPTICAL_CUTOFF.C;
  const seen = (line: LineId): Seen => (intensity[line] >= OPTICAL_CUTOFF[line] ? "clear" : "absent");
  const lines = { T1: seen("T1"), T2: seen("T2") };
  const result = controlled ? valid(lines).result : bothLines("invalid");
  const control = controlled ? "clear" : "absent";
  return { device, reader: "OR", readAt, enteredAt: null, control, seen: lines, result, intensity };
}

/** Smallest intensity that counts as a line: the kit file's figures, two decimals. */
export const OPTICAL_CUTOFF = {
  C: 30,
  T1: Math.round(Math.pow(10, OPTICAL.T1) * 100) / 100,
  T2: Math.round(Math.pow(10, OPTICAL.T2) * 100) / 100,
} as const;

function opticalIntensity(draws: Draws, device: Device, effects: Effects) {
  const measured = (line: LineId) =>
    levelAt(device, line, device.lookedAfter, effects) + draws.normal(0, OPTICAL.deviation);
  const levels = { T1: measured("T1"), T2: measured("T2") };
  const control = draws.normal(2.5, 0.1);
  if (device.cause === null) return rounded(control, levels);
  const nothing = { T1: draws.normal(0.3, 0.1), T2: draws.normal(0.3, 0.1) };
  return rounded(
    draws.normal(0.4, 0.15),
    device.lineWithoutControl ? { T1: draws.normal(2, 0.1), T2: nothing.T2 } : nothing,
  );
}

function rounded(control: number, levels: ByLine<number>) {
  const unit = (level: number) => Math.round(Math.pow(10, level) * 100) / 100;
  return { C: unit(control), T1: unit(levels.T1), T2: unit(levels.T2) };
}

function typeResult(draws: Draws, device: Device, derived: ByLine<Result>): ByLine<Result> {
  const swapped = draws.chance(TYPING.swapped);
  const wrong = LINES.map(() => draws.chance(TYPING.wrong));
  if (device.lineWithoutControl) return { T1: "reactive", T2: "nonreactive" };
  if (device.typedNonreactive) return bothLines("nonreactive");
  if (device.cause !== null) return derived;
  const opposite = (result: Result): Result => (result === "reactive" ? "nonreactive" : "reactive");
  const [first, second] = swapped ? [derived.T2, derived.T1] : [derived.T1, derived.T2];
  return { T1: wrong[0] ? opposite(first) : first, T2: wrong[1] ? opposite(second) : second };
}
