import type { PairedSet } from "../records/model.ts";
import type { Criterion } from "./criteria.ts";
import type { Answer } from "./document.ts";
import type { MeasureName } from "./measures.ts";
import type { Worktop } from "./worktop.ts";

/** A criterion on sensitivity or specificity, with the answer that a cell gives to it. */
export interface AccuracyAnswer {
  readonly criterion: Criterion;
  readonly answer: Answer & { readonly measure: MeasureName };
}

/** A cell, and what is asked of its accuracy. */
export interface JudgedCell {
  readonly set: PairedSet;
  readonly answers: readonly AccuracyAnswer[];
}

/** The first cell of each analyte, and every cell of whose accuracy a criterion asks something. */
export function judgedCells(
  worktop: Worktop,
  sets: readonly PairedSet[],
  answers: readonly Answer[],
): JudgedCell[] {
  const firsts = new Map<string, PairedSet>();
  for (const set of sets) if (!firsts.has(set.analyte)) firsts.set(set.analyte, set);
  return sets.flatMap((set) => {
    const asked = answers.filter((answer) => isOf(answer, set)).flatMap((answer) => asAsked(worktop, answer));
    return asked.length > 0 || firsts.get(set.analyte) === set ? [{ set, answers: asked }] : [];
  });
}

function isOf(answer: Answer, set: PairedSet): boolean {
  return (
    answer.analyte === set.analyte &&
    answer.kit === set.kit &&
    answer.specimen === set.specimen &&
    answer.reader === set.reader
  );
}

function asAsked({ study }: Worktop, answer: Answer): AccuracyAnswer[] {
  const { measure } = answer;
  const criterion = study.criteria.find(({ id }) => id === answer.criterion);
  if (measure === "invalid_rate" || criterion === undefined) return [];
  return [{ criterion, answer: { ...answer, measure } }];
}

/** What stands at the head of a criterion wherever it is judged anew. */
export function criterionHead({ answer }: AccuracyAnswer) {
  const { criterion, measure, threshold, direction, verdict } = answer;
  return { criterion, measure, threshold, direction, naive: verdict };
}
