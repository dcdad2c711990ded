import { type AlarmTruth, alarmTruths, isCounted } from "./alarm-truth.ts";
import { cellsOf } from "./cases.ts";
import { type CellTruth, cellTruth } from "./cell-truth.ts";
import type { Fault, FaultKind } from "./fault.ts";
import { type OperatorTruth, operatorTruths } from "./operator-truth.ts";
import { type PairedTruth, pairedTruths } from "./paired-truth.ts";
import { ANALYTES, LINE_OF } from "./scenario.ts";
import type { Table, TableName } from "./tables.ts";
import type { AnalyteId, Reading, World } from "./world.ts";

interface PlantedFault {
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
  /** Devices used, second visits and needless repeats too. */
  readonly devices: number;
  readonly repeats: number;
  readonly readings: Readonly<Record<"R1" | "R2" | "OR", number>>;
  readonly conditions: { readonly hbsag: number; readonly anti_hcv: number; readonly both: number };
  readonly withoutReference: { readonly pending: readonly string[]; readonly lost: readonly string[] };
  readonly cells: readonly CellTruth[];
  readonly comparisons: readonly PairedTruth[];
  readonly interpretations: { readonly typed: number; readonly differing: number };
  readonly lineWithoutControl: number;
  readonly operators: readonly OperatorTruth[];
  readonly alarms: readonly AlarmTruth[];
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
  const known = cellsOf(world, timeUnknown);
  const cells = known.map(cellTruth);
  const interpretations = typedTruth(world);
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
    cells,
    comparisons: pairedTruths(known),
    interpretations,
    lineWithoutControl: world.devices.filter((device) => device.lineWithoutControl).length,
    operators: operatorTruths(world),
    alarms: alarmTruths(world, faults, cells, interpretations.differing),
    faults: locate(faults, tables),
  };
}

function readBy(world: World, reader: Reading["reader"]): number {
  return world.readings.filter((reading) => reading.reader === reader).length;
}

function withoutReference(world: World, why: "pending" | "lost"): string[] {
  return [...world.withoutReference].filter(([, reason]) => reason === why).map(([visit]) => visit.plasma.id);
}

/** Typed results of the devices that count, and how many the reader's own lines contradict. */
function typedTruth(world: World): Truth["interpretations"] {
  const byFirst = new Map(
    world.readings.filter(({ reader }) => reader === "R1").map((one) => [one.device, one]),
  );
  const pairs = world.typed
    .filter(({ device }) => isCounted(device))
    .flatMap(({ device, result }) =>
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

function locate(faults: readonly Fault[], tables: Readonly<Record<TableName, Table>>): PlantedFault[] {
  return faults.map(({ kind, table, column, rows, id }) => {
    const lines = rows.map((row) => tables[table].rows.indexOf(row) + 2);
    return { kind, file: `${table}.csv`, rows: lines, column, id };
  });
}
