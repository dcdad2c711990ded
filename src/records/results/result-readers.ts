import { comparedReaders } from "../comparison-sides.ts";
import type { Study } from "../study.ts";
import type { ResultRecords, ResultRow } from "./result-row.ts";

/** Whose results a paired set holds: one reader's, or those of several together. */
export interface ResultReader {
  readonly name: string;
  readonly of: readonly string[];
}

/**
 * The readers of a kit whose sets are made, as the study file says; then those whom only its
 * comparisons, latent class models or instruments name, where they read. Without a reader column there is just one.
 */
export function resultReaders(
  rows: readonly ResultRow[],
  kit: string,
  records: ResultRecords,
  study: Study,
): ResultReader[] {
  if (records.columns.reader === undefined) return [{ name: "recorded", of: ["recorded"] }];
  const read = rows.filter((row) => row.kits.some((results) => results.kit === kit && results.done));
  const names = [...new Set(read.map((row) => row.reader))].sort();
  const asked = readersAsked(names, study);
  const further = comparedReaders(study)
    .filter((name) => !asked.some((reader) => reader.name === name))
    .flatMap((name): ResultReader[] => {
      if (name === "consensus") return [{ name, of: names }];
      return names.includes(name) ? [{ name, of: [name] }] : [];
    });
  return [...asked, ...further];
}

function readersAsked(names: readonly string[], { readers }: Study): ResultReader[] {
  const { use, primary } = readers;
  if (use === "consensus") return [{ name: "consensus", of: names }];
  if (use === "primary") return [{ name: primary ?? "", of: [primary ?? ""] }];
  if (names.length === 0) return [{ name: primary ?? "recorded", of: [] }];
  const first = names.filter((name) => name === primary);
  return [...first, ...names.filter((name) => name !== primary)].map((name) => ({ name, of: [name] }));
}
