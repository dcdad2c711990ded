import type { Evaluation } from "../../evaluation/document.ts";
import { evaluate } from "../../evaluation/evaluate.ts";
import { type SubsetGroups, subsetGroups } from "../../evaluation/exploration/groups.ts";
import type { InputFile, StudyRecords } from "../../records/model.ts";
import type { RenderedFigure } from "../../report/render-figures.ts";
import { renderFigures } from "../../report/render-report.tsx";
import type { Explored } from "../state/work.ts";
import { hashOf } from "./hash.ts";
import { type ReadingFound, readStudyFiles } from "./read-study-files.ts";
import { type Tell, whole } from "./step.ts";

/** The study that a job is about: its files, and what was changed of its plan to see what follows. */
export interface StudyAsk {
  readonly files: readonly InputFile[];
  readonly explored: readonly Explored[];
}

export interface Evaluated {
  readonly records: StudyRecords;
  readonly evaluation: Evaluation;
  readonly figures: readonly RenderedFigure[];
  /** Whom an exploration could look at alone. */
  readonly groups: readonly SubsetGroups[];
}

interface Kept {
  readonly key: string;
  readonly found: ReadingFound;
  readonly evaluated: Evaluated | null;
}

/** The last study evaluated here: saving it needs no second evaluation. */
let kept: Kept | null = null;

/** Reads, evaluates and draws a study, unless it is the last one. */
export async function evaluatedStudy(ask: StudyAsk, tell: Tell): Promise<Kept> {
  const key = await keyOf(ask);
  if (kept?.key === key) return kept;
  await tell(whole("reading"));
  const { found, read } = await readStudyFiles(ask.files, ask.explored);
  if (read === null) {
    kept = { key, found, evaluated: null };
    return kept;
  }
  await tell(whole("evaluating"));
  const evaluation = evaluate(read.records, read.inputs, read.exploration);
  await tell(whole("drawing"));
  const figures = await renderFigures(evaluation);
  const groups = subsetGroups(read.everybody);
  kept = { key, found, evaluated: { records: read.records, evaluation, figures, groups } };
  return kept;
}

async function keyOf({ files, explored }: StudyAsk): Promise<string> {
  const hashes = await Promise.all(files.map(async ({ name, bytes }) => [name, await hashOf(bytes)]));
  return JSON.stringify([hashes, explored]);
}
