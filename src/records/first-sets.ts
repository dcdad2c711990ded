import type { PairedSet } from "./model.ts";

/** The first paired set of each analyte and kit, in their order. */
export function firstSets(sets: readonly PairedSet[]): PairedSet[] {
  return sets.filter(
    (set) => sets.find((other) => other.analyte === set.analyte && other.kit === set.kit) === set,
  );
}
