import { type Draws, drawsOf } from "./draws.ts";
import { OPERATORS, type Operator } from "./operators.ts";
import { BACKGROUND, INVALID, READING_TIME, SITES } from "./scenario.ts";
import type { Device, InvalidCause, SiteId, TestedSpecimen, Visit } from "./world.ts";

const MINUTE = 60;
const OPERATOR_BY_ID = new Map(OPERATORS.map((operator) => [operator.id, operator]));
/** July and August 2026. */
const DAMP_DAYS = { from: 91, to: 152 };

/** One device for each specimen tested, and a second one after an invalid result; in the order of use. */
export function runDevices(seed: number, visits: readonly Visit[], linesWithoutControl: number): Device[] {
  const draws = drawsOf(seed, "devices");
  const first = visits.flatMap((visit) => visit.tested.map((specimen) => runDevice(draws, visit, specimen)));
  const judged = withMisreadInvalids(draws, first, linesWithoutControl);
  const repeats = judged
    .filter((device) => device.cause !== null && !device.lineWithoutControl && !device.typedNonreactive)
    .map((device) => runDevice(draws, device.visit, device.specimen, device));
  const all = [...judged, ...repeats].sort(
    (a, b) => a.appliedAt - b.appliedAt || (a.specimen.id < b.specimen.id ? -1 : 1),
  );
  all.forEach((device, index) => {
    device.id = `D${String(index + 1).padStart(5, "0")}`;
  });
  return all;
}

function runDevice(
  draws: Draws,
  visit: Visit,
  specimen: TestedSpecimen,
  repeatOf: Device | null = null,
): Device {
  const operator = operatorOf(visit);
  const humidity = drawHumidity(draws, visit.person.site, visit.day);
  const begins = repeatOf === null ? specimen.collectedAt : repeatOf.bufferAt + 25 * MINUTE;
  const appliedAt = begins + Math.round(draws.uniform(1.5, 6) * MINUTE);
  return {
    id: "",
    visit,
    specimen,
    lot: lotOf(visit),
    attempt: repeatOf === null ? 1 : 2,
    repeatOf,
    openedAt: appliedAt - draws.whole(40, 240),
    appliedAt,
    bufferAt: appliedAt + draws.whole(8, 45),
    drops: draws.chance(operator.wrongDrops) ? draws.pick([2, 4]) : 3,
    temperature: drawTemperature(draws),
    humidity,
    cause: drawCause(draws, specimen, operator, humidity, repeatOf !== null),
    lineWithoutControl: false,
    typedNonreactive: false,
    lookedAfter: drawMinutes(draws, operator),
    background: { T1: drawBackground(draws), T2: drawBackground(draws) },
  };
}

export function operatorOf(visit: Visit): Operator {
  return OPERATOR_BY_ID.get(visit.operator) as Operator;
}

function lotOf(visit: Visit): string {
  const site = SITES.find(({ id }) => id === visit.person.site) as (typeof SITES)[number];
  return visit.day >= site.secondLotFrom ? (site.lots.at(-1) as string) : site.lots[0];
}

/** Inside the kit's working temperature; what the thermometers say in Fahrenheit is planted later. */
function drawTemperature(draws: Draws): number {
  return Math.round(Math.min(29.5, Math.max(16, draws.normal(24.5, 2.2))) * 10) / 10;
}

function drawHumidity(draws: Draws, site: SiteId, day: number): number {
  const damp = day >= DAMP_DAYS.from && day <= DAMP_DAYS.to ? (site === "T" ? 14 : 7) : 0;
  return Math.round(Math.min(97, Math.max(28, draws.normal(60 + damp, 10))));
}

function drawCause(
  draws: Draws,
  specimen: TestedSpecimen,
  operator: Operator,
  humidity: number,
  again: boolean,
): InvalidCause | null {
  const damp = humidity > INVALID.dampAirFrom ? INVALID.dampAirTimes : 1;
  const first = INVALID[specimen.type] * damp * operator.invalidTimes;
  return draws.chance(again ? INVALID.secondAttempt : first) ? draws.weighted(INVALID.causes) : null;
}

function drawMinutes(draws: Draws, operator: Operator): number {
  const { inWindow, early, late, veryLate } = READING_TIME;
  if (draws.chance(operator.readsLate)) return draws.uniform(late.from, late.to);
  const kind = draws.weighted({
    in: inWindow.share,
    early: early.share,
    late: late.share,
    veryLate: veryLate.share,
  });
  if (kind === "early") return draws.uniform(early.from, early.to);
  if (kind === "late") return draws.uniform(late.from, late.to);
  if (kind === "veryLate") return draws.uniform(veryLate.from, veryLate.to);
  return truncatedNormal(draws, inWindow.mean, inWindow.deviation, inWindow.from, inWindow.to);
}

function truncatedNormal(draws: Draws, mean: number, deviation: number, from: number, to: number): number {
  for (;;) {
    const value = draws.normal(mean, deviation);
    if (value >= from && value <= to) return value;
  }
}

function drawBackground(draws: Draws): number {
  return draws.normal(BACKGROUND.mean, BACKGROUND.deviation);
}

/** Planted: a T1 line called reactive without its control line; and invalid devices typed as nonreactive. */
function withMisreadInvalids(draws: Draws, devices: readonly Device[], count: number): Device[] {
  const uncontrolled = devices.filter(({ cause, visit }) => cause === "no_control" && visit.number === 1);
  const called = new Set(draws.sample(uncontrolled, count));
  return devices.map((device) => {
    if (device.cause === null) return device;
    if (called.has(device)) return { ...device, lineWithoutControl: true };
    return { ...device, typedNonreactive: draws.chance(INVALID.typedNonreactive) };
  });
}
