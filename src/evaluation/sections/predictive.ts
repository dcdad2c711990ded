import { type Note, note } from "../../core/note.ts";
import { atPrevalence } from "../../methods/predictive/at-prevalence.ts";
import { expectedCounts } from "../../methods/predictive/expected-counts.ts";
import { lowestPrevalence } from "../../methods/predictive/lowest-prevalence.ts";
import { CURVE_PREVALENCES, overPrevalences } from "../../methods/predictive/over-prevalences.ts";
import type { PairedSet } from "../../records/model.ts";
import type { FourfoldCounts } from "../../records/tallies.ts";
import { cellOf, isComparator } from "../cells.ts";
import type { Predictive } from "../document.ts";
import type { Worktop } from "../worktop.ts";

const TARGETS = [0.9, 0.95, 0.99] as const;
const TESTED = 10_000;
/** Digits of a prevalence on the curve: enough to draw it, and the same on every machine. */
const DIGITS = 6;

/**
 * What a result is worth elsewhere: predictive values at the prevalences of the programmes that the
 * study file names, along a curve, and the lowest prevalence for a wanted value. Against a comparator
 * none of it can be had: agreement with another test is not accuracy.
 */
export function predictiveSection(worktop: Worktop, set: PairedSet): Predictive {
  if (isComparator(worktop.study, set.analyte)) {
    const message = "the comparator is no reference standard: agreement with it gives no predictive values";
    const notes = [note("comparator_not_reference", "curve", message)];
    return { ...cellOf(set), programmes: [], curve: [], lowestPrevalence: [], notes };
  }
  const study = studyCounts(worktop.tally(set).counts);
  const programmes = programmesOf(worktop, set);
  const notes: Note[] = [];
  return {
    ...cellOf(set),
    programmes: programmes.map((programme, index) => {
      const place = `programmes.${index}`;
      return { ...programme, ...atProgramme(worktop, study, programme.prevalence, place, notes) };
    }),
    curve: curve(
      worktop,
      study,
      programmes.map((programme) => programme.prevalence),
      notes,
    ),
    lowestPrevalence: TARGETS.map((target, index) =>
      lowest(worktop, study, target, `lowestPrevalence.${index}`, notes),
    ),
    notes,
  };
}

type StudyCounts = ReturnType<typeof studyCounts>;

function studyCounts({ truePositives, falsePositives, falseNegatives, trueNegatives }: FourfoldCounts) {
  return {
    truePositives,
    positives: truePositives + falseNegatives,
    trueNegatives,
    negatives: trueNegatives + falsePositives,
  };
}

function programmesOf(worktop: Worktop, set: PairedSet) {
  return worktop.study.prevalences.flatMap(({ id, title, source, values }) => {
    const prevalence = values[set.analyte];
    return prevalence === undefined ? [] : [{ id, title, source: source ?? null, prevalence }];
  });
}

function atProgramme(
  worktop: Worktop,
  study: StudyCounts,
  prevalence: number,
  place: string,
  notes: Note[],
): Pick<Predictive["programmes"][number], "ppv" | "npv" | "per10000"> {
  const { level } = worktop.interval;
  const trust = worktop.compute(atPrevalence, { ...study, prevalence }, { level });
  const expected = worktop.compute(
    expectedCounts,
    { ...study, prevalence, tested: TESTED },
    worktop.interval,
  ).values;
  const { reactive, truePositives, falsePositives, falseNegatives, trueNegatives } = expected;
  notes.push(
    ...trust.notes.filter(({ path }) => path === "ppv" || path === "npv").map((entry) => moved(entry, place)),
  );
  return {
    ppv: trust.values.ppv,
    npv: trust.values.npv,
    per10000: { reactive, truePositives, falsePositives, falseNegatives, trueNegatives },
  };
}

/** Equal steps on the logarithmic scale, and the programmes' own prevalences between them. */
function curve(
  worktop: Worktop,
  study: StudyCounts,
  own: readonly number[],
  notes: Note[],
): Predictive["curve"] {
  const inside = own.filter((prevalence) => prevalence > 0 && prevalence < 1);
  const steps = CURVE_PREVALENCES.map((prevalence) => Number(prevalence.toPrecision(DIGITS)));
  const prevalences = [...new Set([...steps, ...inside])].sort((one, other) => one - other);
  const found = worktop.compute(
    overPrevalences,
    { ...study, prevalences },
    { level: worktop.interval.level },
  );
  notes.push(...found.notes.map((entry) => ({ ...entry, path: entry.path.replace(/^points/, "curve") })));
  return found.values.points.map(({ ppv, npv }, index) => ({
    prevalence: prevalences[index] as number,
    ppv,
    npv,
  }));
}

function lowest(
  worktop: Worktop,
  study: StudyCounts,
  target: number,
  place: string,
  notes: Note[],
): Predictive["lowestPrevalence"][number] {
  const found = worktop.compute(lowestPrevalence, { ...study, target }, { level: worktop.interval.level });
  const names: Readonly<Record<string, string>> = { atEstimate: "prevalence", atLowerLimit: "byLowerLimit" };
  notes.push(
    ...found.notes.map((entry) => moved({ ...entry, path: names[entry.path] ?? entry.path }, place)),
  );
  return { target, prevalence: found.values.atEstimate, byLowerLimit: found.values.atLowerLimit };
}

function moved(entry: Note, place: string): Note {
  return { ...entry, path: `${place}.${entry.path}` };
}
