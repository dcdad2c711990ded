import type { Estimate } from "../../core/estimate.ts";
import { note } from "../../core/note.ts";
import { manyReaders } from "../../methods/agreement/many-readers.ts";
import type { ManyReaders } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { ReadDevices } from "../read-devices.ts";
import type { Worktop } from "../worktop.ts";
import { REPLICATES } from "./replicates.ts";

/** Codes of the two results that are compared. */
const CODES = { reactive: 1, nonreactive: 0 };

/**
 * All eye readers of the same devices together, where there are three or more of them, or two who did not
 * read every device. An invalid reading is no rating: agreement is on reactive and non-reactive.
 */
export function manyReadersSection(worktop: Worktop, read: readonly ReadDevices[]): ManyReaders[] {
  return read.flatMap((group) => {
    const readers = group.readers.filter(({ method }) => method !== "optical").map(({ name }) => name);
    if (readers.length < 2) return [];
    const rows = group.devices.filter((device) => readers.some((reader) => device.has(reader)));
    const missing = rows.some((device) => readers.some((reader) => !device.has(reader)));
    if (readers.length === 2 && !missing) return [];
    const ratings = rows.map((device) =>
      readers.map((reader) => {
        const result = device.get(reader)?.result;
        return result === undefined || result === "invalid" ? null : CODES[result];
      }),
    );
    return [together(worktop, group, readers, ratings)];
  });
}

const NAMES = { fleissKappa: "fleissKappa", gwetAgreement: "ac1", krippendorffAlpha: "alpha" };

function together(
  worktop: Worktop,
  { analyte, kit, specimen }: ReadDevices,
  readers: string[],
  ratings: (number | null)[][],
): ManyReaders {
  const { values, notes } = worktop.compute(
    manyReaders,
    { ratings },
    {
      level: worktop.interval.level,
      categories: [CODES.nonreactive, CODES.reactive],
      replicates: REPLICATES,
      seed: worktop.seedOf(`many readers ${analyte} ${kit} ${specimen}`),
    },
  );
  const shown = notesUnder(notes, NAMES)
    .filter(({ path }) => !/\.(estimate|standardError)\b/.test(path))
    .map((entry) => ({ ...entry, path: entry.path.replace(".bootstrap", "") }));
  if (values.comparedItems < values.items) {
    const message = "devices with one valid reading only are not compared";
    shown.push(note("read_by_one", "devices", message));
  }
  return {
    analyte,
    kit,
    specimen,
    readers,
    devices: values.comparedItems,
    fleissKappa: limitsOf(values.fleissKappa.bootstrap),
    ac1: limitsOf(values.gwetAgreement.bootstrap),
    alpha: limitsOf(values.krippendorffAlpha.bootstrap),
    notes: shown,
  };
}

function limitsOf({ value, lower, upper }: Estimate): Estimate {
  return { value, lower, upper };
}
