import type { Kit } from "./kit.ts";
import type { Study } from "./study.ts";

type Comparison = Study["comparisons"][number];

/** One side of a comparison, with what the study file leaves out filled in. */
export interface ComparisonSide {
  readonly kit: string;
  readonly specimen: string;
  /** `null` where only the records can tell: every reader is analysed and none is named primary. */
  readonly reader: string | null;
}

/** A side in full: what is absent is the main kit, the first specimen type, the reader whose results count. */
export function comparisonSide(side: Comparison["first"], study: Study, main: Kit): ComparisonSide {
  return {
    kit: side.kit ?? main.id,
    specimen: side.specimen ?? study.specimens[0]?.type ?? "",
    reader: side.reader ?? mainReader(study),
  };
}

/** The readers that records without a reader column can have; `null` where the records name readers. */
export function readersKnown({ records }: Pick<Study, "records">): readonly string[] | null {
  if (records.shape === "lines") return null;
  if (records.shape === "results" && records.columns.reader !== undefined) return null;
  return ["recorded"];
}

function mainReader(study: Study): string | null {
  const only = readersKnown(study)?.[0];
  if (only !== undefined) return only;
  return study.readers.use === "consensus" ? "consensus" : (study.readers.primary ?? null);
}

/** Readers whom comparisons, latent class models and instruments name, in the order of the study file. */
export function comparedReaders(study: Study): string[] {
  const compared = study.comparisons.flatMap(({ first, second }) => [first.reader, second.reader]);
  const named = [
    ...compared,
    ...study.latent_class.flatMap(({ tests }) => tests.map(({ reader }) => reader)),
    ...study.instruments.map(({ reader }) => reader),
  ];
  return [...new Set(named.filter((reader) => reader !== undefined))];
}
