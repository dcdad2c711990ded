import { kappa } from "../../methods/agreement/kappa.ts";
import type { DeviceResult } from "../../records/model.ts";
import type { Agreement } from "../document.ts";
import { notesAtPlace } from "../notes.ts";
import type { DeviceReader } from "../read-devices.ts";
import type { Worktop } from "../worktop.ts";
import type { BothRead } from "./disagreements.ts";

/**
 * How strongly two eye readers saw the analyte's line: absent, faint or clear, crossed, with linearly
 * weighted kappa, so that absent against clear counts as twice the disagreement of absent against faint.
 * `null` where lines are not in the records, one of the two is an instrument, or there is no device.
 */
export function lineStrength(
  worktop: Worktop,
  readers: readonly DeviceReader[],
  valid: readonly BothRead[],
): Agreement["lineStrength"] {
  const byEye = readers.every(({ method }) => method !== "optical");
  if (worktop.study.records.shape !== "lines" || !byEye || valid.length === 0) return null;
  const table = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  for (const [first, second] of valid) {
    const row = table[strengthOf(first)];
    if (row !== undefined) row[strengthOf(second)] = (row[strengthOf(second)] ?? 0) + 1;
  }
  const { values, notes } = worktop.compute(
    kappa,
    { table },
    { weights: "linear", level: worktop.interval.level },
  );
  return {
    table,
    weightedKappa: values.kappa,
    notes: notesAtPlace(
      notes.filter(({ path }) => path.startsWith("kappa")),
      "lineStrength",
    ),
  };
}

/** 0 absent, 1 faint, 2 clear. A reactive result of a line that was not faint had a clear one. */
function strengthOf({ faint, result }: DeviceResult): number {
  if (faint) return 1;
  return result === "reactive" ? 2 : 0;
}
