import type { Kit } from "../records/kit.ts";
import type { PairedSet, StudyRecords } from "../records/model.ts";
import type { Study } from "../records/study.ts";

/**
 * The cells of the evaluation: one analyte, one kit, one specimen type, one reader. Analytes, kits and
 * specimen types in the order of the study file, so that the primary ones come first; of the readers
 * those that the study file asks for, the primary one first. A further kit of which nobody has a result
 * has no cell.
 */
export function evaluatedSets(records: StudyRecords): readonly PairedSet[] {
  const { study, sets } = records;
  const kits = records.kits.map((kit) => kit.id);
  const analytes = study.analytes.map((analyte) => analyte.id);
  const specimens = study.specimens.map((specimen) => specimen.type);
  const asked = sets.filter((set) => isAsked(set, study) && (set.kit === kits[0] || isUsed(set)));
  const rank = (set: PairedSet) => [
    analytes.indexOf(set.analyte),
    kits.indexOf(set.kit),
    specimens.indexOf(set.specimen),
    set.reader === study.readers.primary ? 0 : 1,
  ];
  return [...asked].sort((one, other) => compare(rank(one), rank(other)));
}

function isUsed(set: PairedSet): boolean {
  return set.pairs.some((pair) => pair.rapid !== "not_done");
}

/** Result tables without a reader column have one nameless reader, who is always asked. */
function isAsked(set: PairedSet, study: Study): boolean {
  if (set.reader === "recorded") return true;
  if (study.readers.use === "each") return set.reader !== "consensus";
  return set.reader === (study.readers.use === "consensus" ? "consensus" : study.readers.primary);
}

function compare(one: readonly number[], other: readonly number[]): number {
  for (const [index, value] of one.entries()) {
    const difference = value - (other[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** The names of a cell, as they stand at the head of most sections. */
export function cellOf(set: Pick<PairedSet, "analyte" | "kit" | "specimen" | "reader">) {
  return { analyte: set.analyte, kit: set.kit, specimen: set.specimen, reader: set.reader };
}

/** The kit that the study is about; further kits are compared with it. */
export function mainKit(records: StudyRecords): string {
  return records.kits[0]?.id ?? "";
}

/** A kit's name as its file gives it. */
export function kitTitle(kits: readonly Kit[], id: string): string {
  return kits.find((kit) => kit.id === id)?.title ?? id;
}

/** Number of people among the pairs that satisfy a condition: weights add up for count records. */
export function peopleIn(set: PairedSet, satisfies: (pair: PairedSet["pairs"][number]) => boolean): number {
  let people = 0;
  for (const pair of set.pairs) if (satisfies(pair)) people += pair.weight;
  return people;
}

/**
 * Whether proportions of the reference-positive among these people mean anything outside the study:
 * only where all came consecutively or at random, not where some were sought for their status.
 */
export function isPopulationSample(set: PairedSet): boolean {
  return set.pairs.every((pair) => pair.selection === "consecutive" || pair.selection === "random");
}

/** A comparator is no reference standard: agreement can be had against it, accuracy can't. */
export function isComparator(study: Study, analyte: string): boolean {
  return study.analytes.find((entry) => entry.id === analyte)?.reference.role === "comparator";
}
