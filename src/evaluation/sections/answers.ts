import type { ProportionEstimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { criterion as criterionMethod, criterionVerdict } from "../../methods/proportion/criterion.ts";
import type { PairedSet } from "../../records/model.ts";
import type { Treatment } from "../../records/treatment.ts";
import { cellOf, mainKit } from "../cells.ts";
import { type Criterion, demandOf, judgedBy } from "../criteria.ts";
import type { Answer } from "../document.ts";
import { INVALID_TREATMENTS, WINDOW_TREATMENTS } from "../schema/parts.ts";
import type { Worktop } from "../worktop.ts";
import { firstAttemptInvalid } from "./invalid.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

/** Each criterion of the study file held against the data, once for every reader that is asked. */
export function answersSection(worktop: Worktop, sets: readonly PairedSet[]): Answer[] {
  return worktop.study.criteria.flatMap((criterion) => {
    const specimen = criterion.specimen ?? worktop.study.specimens[0]?.type ?? "";
    const kit = criterion.kit ?? mainKit(worktop.records);
    const found = sets.filter(
      (set) => set.analyte === criterion.analyte && set.kit === kit && set.specimen === specimen,
    );
    if (found.length === 0) return [withoutData(worktop, criterion, kit, specimen)];
    return found.map((set) => answer(worktop, criterion, set));
  });
}

function answer(worktop: Worktop, criterion: Criterion, set: PairedSet): Answer {
  const { threshold, direction } = demandOf(criterion);
  const { count, total } = measured(worktop, criterion, set, {});
  const judged = judgedBy(worktop.interval, criterion);
  const { values, notes } = worktop.compute(
    criterionMethod,
    { count, total, threshold, direction },
    judged.options,
  );
  const verdictUnder = (changed: Partial<Treatment>) => {
    const { count: seen, total: of } = measured(worktop, criterion, set, changed);
    if (of === 0) return "not_estimable";
    return criterionVerdict({ count: seen, total: of, threshold, direction }, judged.options);
  };
  const { invalid, outsideWindow } = worktop.treatment;
  const treated = criterion.measure !== "invalid_rate";
  return {
    ...head(criterion),
    ...cellOf(set),
    estimate: values.proportion,
    verdict: values.verdict,
    probability: values.probability,
    further: values.further,
    byInvalidTreatment: INVALID_TREATMENTS.filter((treatment) => treated && treatment !== invalid).map(
      (treatment) => ({ treatment, verdict: verdictUnder({ invalid: treatment }) }),
    ),
    byWindowTreatment: WINDOW_TREATMENTS.filter((treatment) => treated && treatment !== outsideWindow).map(
      (treatment) => ({ treatment, verdict: verdictUnder({ outsideWindow: treatment }) }),
    ),
    notes: [...notes, ...judged.notes, ...(treated ? [] : [RAW_RATE])],
  };
}

const RAW_RATE: Note = note(
  "first_attempts",
  "estimate",
  "counts the first device of each person, as recorded: no treatment of invalid or untimely results changes it",
);

function measured(
  worktop: Worktop,
  criterion: Criterion,
  set: PairedSet,
  changed: Partial<Treatment>,
): ProportionEstimate {
  if (criterion.measure === "invalid_rate") return firstAttemptInvalid(worktop, set);
  return sensitivitySpecificity(worktop, worktop.tally(set, changed).counts)[criterion.measure];
}

function head(criterion: Criterion) {
  return {
    criterion: criterion.id,
    measure: criterion.measure,
    importance: criterion.importance,
    ...demandOf(criterion),
    source: criterion.source,
    enteredOn: criterion.entered_on ?? null,
  };
}

/** A criterion that speaks of a cell which the records do not have. */
function withoutData(worktop: Worktop, criterion: Criterion, kit: string, specimen: string): Answer {
  const { readers } = worktop.study;
  return {
    ...head(criterion),
    analyte: criterion.analyte,
    kit,
    specimen,
    reader: readers.use === "consensus" ? "consensus" : (readers.primary ?? "recorded"),
    estimate: worktop.proportion(0, 0),
    verdict: "not_estimable",
    probability: null,
    further: null,
    byInvalidTreatment: [],
    byWindowTreatment: [],
    notes: [
      note(
        "no_observations",
        "estimate",
        "the records hold no results of this analyte, kit and specimen type",
      ),
    ],
  };
}
