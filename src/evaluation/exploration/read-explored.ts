import type { InputFile, StudyRecords } from "../../records/model.ts";
import { type ReadStudy, readStudy } from "../../records/read-study.ts";
import type { Exploration } from "../schema/exploration.ts";
import { exploredStudy, type Wanted } from "./explored-study.ts";
import { subsetOf } from "./subset.ts";

type ReadExplored =
  | Extract<ReadStudy, { readonly ok: false }>
  | {
      readonly ok: true;
      /** Of the changed study and of the people looked at: what `evaluate` takes. */
      readonly records: StudyRecords;
      /** Of everybody. */
      readonly everybody: StudyRecords;
      /** What differs from the plan, for `evaluate`; `null` where nothing does. */
      readonly exploration: Exploration | null;
    };

/**
 * Reads a study folder as `readStudy` does, with choices of its plan changed to see what follows. The study
 * file itself is read as it stands; without changes the records are those of `readStudy`.
 */
export function readExplored(files: readonly InputFile[], wanted: readonly Wanted[]): ReadExplored {
  let exploration: Exploration | null = null;
  const read = readStudy(files, (planned) => {
    const explored = exploredStudy(planned, wanted);
    exploration = explored.exploration;
    return explored.study;
  });
  if (!read.ok) return read;
  return {
    ok: true,
    records: subsetOf(read.records, exploration),
    everybody: read.records,
    exploration,
  };
}
