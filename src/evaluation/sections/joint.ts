import { jointAnalytes } from "../../methods/accuracy/joint-analytes.ts";
import { jointTally } from "../../records/joint-tally.ts";
import type { PairedSet } from "../../records/model.ts";
import type { Joint } from "../document.ts";
import type { Worktop } from "../worktop.ts";

/**
 * Two analytes read on the same devices, every two of them, by kit, specimen type and reader. Counts tell
 * nothing of who is who, so that they have no joint table.
 */
export function jointSection(worktop: Worktop, sets: readonly PairedSet[]): Joint[] {
  if (worktop.study.records.shape === "counts") return [];
  return sets.flatMap((one, index) =>
    sets
      .slice(index + 1)
      .filter(
        (other) =>
          other.analyte !== one.analyte &&
          other.kit === one.kit &&
          other.specimen === one.specimen &&
          other.reader === one.reader,
      )
      .flatMap((other) => oneJoint(worktop, one, other) ?? []),
  );
}

function oneJoint(worktop: Worktop, one: PairedSet, other: PairedSet): Joint | null {
  const { table, analysed } = jointTally(one, other, worktop.treatment);
  if (analysed === 0) return null;
  const rows = table.map((row) => [...row]);
  const { values, notes } = worktop.compute(jointAnalytes, { table: rows }, worktop.interval);
  const named = { first: one.analyte, second: other.analyte };
  const { bothPositive, bothNegative } = values.errorCorrelation;
  return {
    analytes: [one.analyte, other.analyte],
    kit: one.kit,
    specimen: one.specimen,
    reader: one.reader,
    table: rows,
    bothRight: values.bothRight,
    byStatus: values.byStatus,
    crossReaction: values.crossReaction.map(({ analyte, ...rest }) => ({
      analyte: named[analyte],
      other: named[analyte === "first" ? "second" : "first"],
      ...rest,
    })),
    errorCorrelation: { bothPositive, bothNegative },
    notes: notes
      .filter(({ path }) => !/^errorCorrelation\.(all|firstOnly|secondOnly)$/.test(path))
      .map((entry) => ({ ...entry })),
  };
}
