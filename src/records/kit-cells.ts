import type { Kit } from "./kit.ts";
import type { Study } from "./study.ts";

/** One analyte, kit and specimen type that go together: what paired sets are made of, reader by reader. */
export interface KitCell<K extends Kit> {
  readonly analyte: string;
  /** Place of the analyte in the study file. */
  readonly index: number;
  readonly kit: K;
  readonly specimen: string;
}

/**
 * Every analyte, kit and specimen type that go together, in the order of the paired sets: analytes,
 * kits (the main one first), specimen types. A kit has no cell for an analyte that it does not show
 * or a specimen type that it does not accept.
 */
export function kitCells<K extends Kit>(
  study: Study,
  kits: readonly K[],
  shows: (kit: K, analyte: string) => boolean,
): KitCell<K>[] {
  return study.analytes.flatMap((analyte, index) =>
    kits
      .filter((kit) => shows(kit, analyte.id))
      .flatMap((kit) =>
        study.specimens
          .filter(({ type }) => accepts(kit, type))
          .map(({ type }) => ({ analyte: analyte.id, index, kit, specimen: type })),
      ),
  );
}

/** Whether a test line of the kit shows the analyte. */
export function hasLineFor(kit: Kit, analyte: string): boolean {
  return kit.lines.some((line) => line.role === "test" && line.analyte === analyte);
}

/** Whether the kit file names the specimen type. */
export function accepts(kit: Kit, specimen: string): boolean {
  return kit.specimens.some(({ type }) => type === specimen);
}

/**
 * Whether a kit is said to show an analyte: by its lines, or by the columns of result-level records.
 * Counts say it row by row only, so that every kit may.
 */
export function showsAnalyte(study: Study, kits: readonly Kit[], kit: Kit, analyte: string): boolean {
  const { records } = study;
  if (records.shape === "lines") return hasLineFor(kit, analyte);
  if (records.shape === "counts") return true;
  const main = kits[0]?.id;
  return records.analytes.some((mapped) => mapped.analyte === analyte && (mapped.kit ?? main) === kit.id);
}
