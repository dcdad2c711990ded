import { type Note, note } from "../../core/note.ts";
import { type Correction, corrected, type Study } from "./study-fields.ts";

/** What the logarithms of one study's counts give, after the correction. */
export interface StudyEffects {
  readonly label: string;
  /** Where the study stands in the list given. */
  readonly place: number;
  readonly truePositiveRate: number;
  readonly falsePositiveRate: number;
  /** Log odds of a reactive result with the condition, and without. */
  readonly logOddsWith: number;
  readonly logOddsWithout: number;
  readonly logOddsRatio: number;
  /** Of the log odds ratio. */
  readonly variance: number;
  readonly peopleWith: number;
  readonly peopleWithout: number;
}

/**
 * The studies that have people with the condition and people without it, and no count left at 0.
 * @param path where the notes on studies left out stand; the study's place is added
 */
export function studyEffects(
  studies: readonly Study[],
  how: Correction,
  path: string,
): { effects: StudyEffects[]; notes: Note[] } {
  const effects: StudyEffects[] = [];
  const notes: Note[] = [];
  studies.forEach((study, place) => {
    const leftOut = whyLeftOut(study, how);
    if (leftOut === null) effects.push(effectsOf(study, how, place));
    else notes.push(note(leftOut.code, `${path}.${place}`, `${study.label} is left out: ${leftOut.message}`));
  });
  return { effects, notes };
}

function whyLeftOut(study: Study, how: Correction): { code: string; message: string } | null {
  if (study.truePositives + study.falseNegatives === 0) {
    return { code: "no_diseased", message: "nobody in it has the condition" };
  }
  if (study.falsePositives + study.trueNegatives === 0) {
    return { code: "no_nondiseased", message: "everybody in it has the condition" };
  }
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = corrected(study, how);
  if (Math.min(truePositives, falsePositives, falseNegatives, trueNegatives) > 0) return null;
  return { code: "zero_count", message: "a count of 0 has no logarithm; name a correction" };
}

function effectsOf(study: Study, how: Correction, place: number): StudyEffects {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = corrected(study, how);
  const logOddsWith = Math.log(truePositives / falseNegatives);
  const logOddsWithout = Math.log(falsePositives / trueNegatives);
  return {
    label: study.label,
    place,
    truePositiveRate: truePositives / (truePositives + falseNegatives),
    falsePositiveRate: falsePositives / (falsePositives + trueNegatives),
    logOddsWith,
    logOddsWithout,
    logOddsRatio: logOddsWith - logOddsWithout,
    variance: 1 / truePositives + 1 / falsePositives + 1 / falseNegatives + 1 / trueNegatives,
    peopleWith: study.truePositives + study.falseNegatives,
    peopleWithout: study.falsePositives + study.trueNegatives,
  };
}
