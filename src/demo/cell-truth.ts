import {
  byCondition,
  byReference,
  type Case,
  type Cell,
  type Fourfold,
  fourfold,
  type Window,
} from "./cases.ts";
import type { AnalyteId, Result, Status, TestedType } from "./world.ts";

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

export function cellTruth({ analyte, specimen, cases }: Cell): CellTruth {
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
