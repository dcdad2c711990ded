import type { ProportionEstimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { fourfold } from "../../methods/accuracy/fourfold.ts";
import type { PairedSet } from "../../records/model.ts";
import { cellOf, isComparator, isPopulationSample } from "../cells.ts";
import type { Accuracy } from "../document.ts";
import type { Worktop } from "../worktop.ts";

/** The primary analysis of one cell: the fourfold table and everything it says. */
export function accuracySection(worktop: Worktop, set: PairedSet): Accuracy {
  const counted = worktop.tally(set);
  const { values, notes } = worktop.compute(fourfold, counted.counts, worktop.interval);
  const wilson = worktop.compute(fourfold, counted.counts, { ...worktop.interval, method: "wilson" }).values;
  const refused = refusal(worktop, set, counted.analysed);
  const enriched = !isPopulationSample(set);
  const comparator = isComparator(worktop.study, set.analyte);
  const { level, sensitivity, specificity } = values.jointRegion;
  const { reactive, nonreactive, invalid, not_done } = counted.crossTabulation;
  return {
    ...cellOf(set),
    crossTabulation: { reactive, nonreactive, invalid, not_done },
    counts: counted.counts,
    sensitivity: values.sensitivity,
    specificity: values.specificity,
    wilson: { sensitivity: wilson.sensitivity, specificity: wilson.specificity },
    positiveLikelihoodRatio: values.positiveLikelihoodRatio,
    negativeLikelihoodRatio: values.negativeLikelihoodRatio,
    diagnosticOddsRatio: values.diagnosticOddsRatio,
    youden: values.youden,
    overallAccuracy: values.overallAccuracy,
    apparentPrevalence: enriched ? countsOnly(values.apparentPrevalence) : values.apparentPrevalence,
    referencePrevalence:
      enriched || comparator ? countsOnly(values.referencePrevalence) : values.referencePrevalence,
    jointRegion: { level: level ?? worktop.interval.level, sensitivity, specificity },
    ownPredictiveValues: refused === null ? { ppv: values.apparentPpv, npv: values.apparentNpv } : null,
    refused,
    notes: [...notesHere(notes, refused), ...withheldNotes(enriched, comparator)],
  };
}

/**
 * The study's own predictive values are those of its mix of people. They mean something only where
 * all of them came consecutively or at random, and where the other test is a reference standard.
 */
function refusal(worktop: Worktop, set: PairedSet, analysed: number): Accuracy["refused"] {
  if (analysed === 0) return "no_data";
  if (isComparator(worktop.study, set.analyte)) return "comparator_not_reference";
  return isPopulationSample(set) ? null : "enriched_sample";
}

/** How many of how many, without a proportion that could be taken for a population's. */
function countsOnly({ count, total }: ProportionEstimate): ProportionEstimate {
  return { count, total, value: null, lower: null, upper: null };
}

const MOVED: Readonly<Record<string, string>> = {
  apparentPpv: "ownPredictiveValues.ppv",
  apparentNpv: "ownPredictiveValues.npv",
};

/** The method's notes under the names that this document uses; none on what was refused. */
function notesHere(notes: readonly Note[], refused: Accuracy["refused"]): Note[] {
  return notes
    .filter(({ path }) => refused === null || !(path in MOVED))
    .map(({ code, path, message }) => note(code, MOVED[path] ?? path, message));
}

function withheldNotes(enriched: boolean, comparator: boolean): Note[] {
  const sample = "not all people came consecutively or at random: the proportion is the study's own choice";
  const notes = enriched
    ? ["apparentPrevalence", "referencePrevalence"].map((path) => note("enriched_sample", path, sample))
    : [];
  if (comparator && !enriched) {
    const message = "the comparator is no reference standard: its positive share is no prevalence";
    notes.push(note("comparator_not_reference", "referencePrevalence", message));
  }
  return notes;
}
