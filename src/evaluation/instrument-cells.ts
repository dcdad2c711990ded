import { hasLines, type Kit } from "../records/kit.ts";
import type { PairedSet } from "../records/model.ts";
import type { Study } from "../records/study.ts";
import { type MeasuredPeople, measuredPeople } from "./measured-people.ts";
import type { Worktop } from "./worktop.ts";

type Instrument = Study["instruments"][number];

/** One analyte, kit and specimen type as an instrument measured them. */
export interface InstrumentCell {
  readonly instrument: Instrument;
  readonly set: PairedSet;
  readonly kit: Kit;
  readonly people: MeasuredPeople;
}

/** Readings of one status that the methods take. */
const MOST_READINGS = 100_000;

export function isTooLarge({ people }: InstrumentCell): boolean {
  return people.positives.length > MOST_READINGS || people.negatives.length > MOST_READINGS;
}

/** The cells in which an instrument measured somebody, in the order of the study file. */
export function instrumentCells(worktop: Worktop): InstrumentCell[] {
  const { records, study } = worktop;
  if (study.instruments.length === 0) return [];
  return records.sets.flatMap((set) => {
    const instrument = study.instruments.find(
      ({ kit, reader }) =>
        (kit === undefined || kit === set.kit) && (reader === undefined || reader === set.reader),
    );
    const kit = records.kits.find(({ id }) => id === set.kit);
    if (instrument === undefined || kit === undefined) return [];
    if (!set.pairs.some((pair) => typeof pair.measured?.intensity === "number")) return [];
    return [{ instrument, set, kit, people: measuredPeople(set, worktop.treatment) }];
  });
}

/** The kit's lines whose readings these are. */
export function linesOf({ kit, set }: InstrumentCell, { records }: Study): string[] {
  if (records.shape !== "lines" || !hasLines(kit)) return [];
  return kit.lines.flatMap((line) => (line.role === "test" && line.analyte === set.analyte ? [line.id] : []));
}

/** Whether the readings of a cell are probabilities. */
export function isProbability({ kit, set }: InstrumentCell, { records }: Study, main: string): boolean {
  if (records.shape !== "results") return false;
  return records.analytes.some(
    (entry) => entry.analyte === set.analyte && (entry.kit ?? main) === kit.id && entry.probability === true,
  );
}
