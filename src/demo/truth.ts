import {
  byCondition,
  byReference,
  type Case,
  type Cell,
  cellsOf,
  type Fourfold,
  fourfold,
  type Window,
} from "./cases.ts";
import type { Fault, FaultKind } from "./faults.ts";
import { type OperatorTruth, operatorTruths } from "./operator-truth.ts";
import { ANALYTES, LINE_OF, LOTS, SITES } from "./scenario.ts";
import type { Table, TableName } from "./tables.ts";
import type { AnalyteId, Reading, Result, Status, TestedType, World } from "./world.ts";

/** People of one analyte and specimen type by the first reader, as the study's plan counts them. */
export interface CellTruth {
  readonly analyte: AnalyteId;
  readonly specimen: TestedType;
  readonly reader: "R1";
  readonly people: number;
  readonly tested: number;
  readonly firstInvalid: number;
  readonly finalInvalid: number;
  readonly crossTabulation: Readonly<Record<Result | "not_done", Readonly<Record<Status, number>>>>;
  /** Invalid results set aside, readings outside the window kept. */
  readonly againstReference: Fourfold;
  readonly againstTruth: Fourfold;
  /** As `againstReference`, early and late readings set aside; those of unknown minutes kept. */
  readonly againstReferenceInWindow: Fourfold;
  /** Tested people by the recorded minutes to the counted reading. */
  readonly window: Readonly<Record<Window, number>>;
}

export interface PlantedFault {
  readonly kind: FaultKind;
  readonly file: string;
  /** Lines of the file, the header being line 1. */
  readonly rows: readonly number[];
  readonly column: string;
  readonly id: string;
}

export interface Truth {
  readonly what: string;
  readonly study: string;
  readonly seed: number;
  readonly enrolled: number;
  readonly people: number;
  readonly secondVisits: number;
  readonly devices: number;
  readonly repeats: number;
  readonly readings: Readonly<Record<"R1" | "R2" | "OR", number>>;
  readonly conditions: { readonly hbsag: number; readonly anti_hcv: number; readonly both: number };
  readonly withoutReference: { readonly pending: readonly string[]; readonly lost: readonly string[] };
  readonly cells: readonly CellTruth[];
  readonly interpretations: { readonly typed: number; readonly differing: number };
  readonly lineWithoutControl: number;
  readonly operators: readonly OperatorTruth[];
  readonly lotAtOneSite: { readonly lot: string; readonly site: string };
  readonly faults: readonly PlantedFault[];
}

/** What is true in the world that was simulated, and what its records say, worked out without reading them. */
export function tellTruth(
  identity: { readonly study: string; readonly seed: number },
  world: World,
  faults: readonly Fault[],
  tables: Readonly<Record<TableName, Table>>,
): Truth {
  const people = world.people.filter((person) => person.alreadyEnrolledAs === null);
  const has = (analyte: AnalyteId) => people.filter((person) => person.has[analyte]);
  const timeUnknown = new Set(faults.map((fault) => fault.reading).filter((one) => one !== undefined));
  return {
    what: "truth of an invented study, as its generator knows it; simulated data",
    ...identity,
    enrolled: world.people.length,
    people: people.length,
    secondVisits: world.visits.filter((visit) => visit.number === 2).length,
    devices: world.devices.length,
    repeats: world.devices.filter((device) => device.attempt > 1).length,
    readings: { R1: readBy(world, "R1"), R2: readBy(world, "R2"), OR: readBy(world, "OR") },
    conditions: {
      hbsag: has("hbsag").length,
      anti_hcv: has("anti_hcv").length,
      both: has("hbsag").filter((person) => person.has.anti_hcv).length,
    },
    withoutReference: { pending: withoutReference(world, "pending"), lost: withoutReference(world, "lost") },
    cells: cellsOf(world, timeUnknown).map(cellTruth),
    interpretations: typedTruth(world),
    lineWithoutControl: world.devices.filter((device) => device.lineWithoutControl).length,
    operators: operatorTruths(world),
    lotAtOneSite: lotAtOneSite(),
    faults: locate(faults, tables),
  };
}

function readBy(world: World, reader: Reading["reader"]): number {
  return world.readings.filter((reading) => reading.reader === reader).length;
}

function withoutReference(world: World, why: "pending" | "lost"): string[] {
  return [...world.withoutReference].filter(([, reason]) => reason === why).map(([visit]) => visit.plasma.id);
}

function cellTruth({ analyte, specimen, cases }: Cell): CellTruth {
  const tested = cases.filter(({ result }) => result !== "not_done");
  const inTime = tested.filter(({ window }) => window === "in" || window === "unknown");
  const count = (window: Window) => tested.filter((one) => one.window === window).length;
  return {
    analyte,
    specimen,
    reader: "R1",
    people: cases.length,
    tested: tested.length,
    firstInvalid: tested.filter(({ firstInvalid }) => firstInvalid).length,
    finalInvalid: tested.filter(({ result }) => result === "invalid").length,
    crossTabulation: {
      reactive: byStatus(cases, "reactive"),
      nonreactive: byStatus(cases, "nonreactive"),
      invalid: byStatus(cases, "invalid"),
      not_done: byStatus(cases, "not_done"),
    },
    againstReference: fourfold(tested, byReference),
    againstTruth: fourfold(tested, byCondition),
    againstReferenceInWindow: fourfold(inTime, byReference),
    window: { early: count("early"), in: count("in"), late: count("late"), unknown: count("unknown") },
  };
}

function byStatus(cases: readonly Case[], result: Case["result"]): Record<Status, number> {
  const count = (status: Status) =>
    cases.filter((one) => one.result === result && one.reference === status).length;
  return {
    positive: count("positive"),
    negative: count("negative"),
    indeterminate: count("indeterminate"),
    not_done: count("not_done"),
  };
}

/** Typed results of all devices, and how many the reader's own lines contradict. */
function typedTruth(world: World): Truth["interpretations"] {
  const byFirst = new Map(
    world.readings.filter(({ reader }) => reader === "R1").map((one) => [one.device, one]),
  );
  const pairs = world.typed.flatMap(({ device, result }) =>
    ANALYTES.map((analyte) => {
      const line = LINE_OF[analyte];
      return { typed: result[line], derived: byFirst.get(device)?.result[line] };
    }),
  );
  return {
    typed: pairs.length,
    differing: pairs.filter(({ typed, derived }) => typed !== derived).length,
  };
}

function lotAtOneSite(): Truth["lotAtOneSite"] {
  const site = SITES.find(({ lots }) => lots.every((lot) => usedAt(lot) === 1)) as (typeof SITES)[number];
  const lot = LOTS.find((one) => one.lot === site.lots[0]) as (typeof LOTS)[number];
  return { lot: lot.lot, site: site.id };
}

function usedAt(lot: string): number {
  return SITES.filter(({ lots }) => lots.includes(lot)).length;
}

function locate(faults: readonly Fault[], tables: Readonly<Record<TableName, Table>>): PlantedFault[] {
  return faults.map(({ kind, table, column, rows, id }) => {
    const lines = rows.map((row) => tables[table].rows.indexOf(row) + 2);
    return { kind, file: `${table}.csv`, rows: lines, column, id };
  });
}
