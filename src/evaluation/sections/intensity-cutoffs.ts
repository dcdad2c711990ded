import { type Note, note } from "../../core/note.ts";
import { rocCutoff } from "../../methods/roc/cutoff.ts";
import type { CutoffInput } from "../../methods/roc/cutoff-fields.ts";
import type { Instrument } from "../../records/instrument-fields.ts";
import { cellOf } from "../cells.ts";
import type { Intensity } from "../document.ts";
import { type InstrumentCell, linesOf } from "../instrument-cells.ts";
import type { MeasuredPerson } from "../measured-people.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

interface Found<Part extends "stated" | "chosen"> {
  readonly values: Intensity[Part];
  readonly notes: readonly Note[];
}

interface Stated {
  readonly cutoff: number;
  readonly from: "kit" | "study";
  readonly source: string;
}

/** Accuracy at the cutoff stated beforehand, by the kit file or the study file, with the study's interval. */
export function statedCutoff(worktop: Worktop, cell: InstrumentCell): Found<"stated"> {
  const { stated, notes } = statedBy(worktop, cell);
  if (stated === null) return { values: null, notes };
  const { people, instrument } = cell;
  const reactive = ({ reading }: MeasuredPerson) =>
    instrument.direction === "higher" ? reading >= stated.cutoff : reading <= stated.cutoff;
  const truePositives = people.positives.filter(reactive).length;
  const falsePositives = people.negatives.filter(reactive).length;
  const counts = {
    truePositives,
    falsePositives,
    falseNegatives: people.positives.length - truePositives,
    trueNegatives: people.negatives.length - falsePositives,
  };
  return { values: { ...stated, ...sensitivitySpecificity(worktop, counts) }, notes };
}

function statedBy({ study }: Worktop, cell: InstrumentCell): { stated: Stated | null; notes: Note[] } {
  const { instrument, kit, set } = cell;
  const ofStudy = instrument.cutoffs?.[set.analyte];
  if (ofStudy !== undefined && instrument.source !== undefined) {
    return { stated: { cutoff: ofStudy, from: "study", source: instrument.source }, notes: [] };
  }
  const lines = linesOf(cell, study);
  const ofLines = lines.map((line) => kit.instrument?.cutoffs[line]);
  const [cutoff] = ofLines;
  if (cutoff === undefined) return { stated: null, notes: [] };
  if (ofLines.every((other) => other === cutoff)) {
    return { stated: { cutoff, from: "kit", source: kit.source.title }, notes: [] };
  }
  const message = `the lines ${lines.join(", ")} have cutoffs of their own: none stands for the strongest of them`;
  return { stated: null, notes: [note("several_cutoffs", "stated", message)] };
}

/** Times that people are drawn anew for the limits of the cutoff, and split to correct what choosing flatters by. */
const REPLICATES = 300;
const REPEATS = 10;

/** The cutoff that these very people would choose, and what is to be expected of it in others. */
export function chosenCutoff(
  worktop: Worktop,
  { instrument, set }: InstrumentCell,
  readings: Pick<CutoffInput, "positives" | "negatives">,
): Found<"chosen"> {
  if (instrument.choose === undefined) return { values: null, notes: [] };
  const rule = ruleOf(instrument.choose);
  const { values, notes } = worktop.compute(
    rocCutoff,
    { ...readings, direction: instrument.direction, rule },
    {
      level: worktop.interval.level,
      replicates: REPLICATES,
      repeats: REPEATS,
      seed: worktop.seedOf(`chosen cutoff ${Object.values(cellOf(set)).join(" ")}`),
    },
  );
  return { values: { rule, values }, notes: notesAtPlace(notes, "chosen.values") };
}

function ruleOf(choose: NonNullable<Instrument["choose"]>): CutoffInput["rule"] {
  if (choose === "youden") return { kind: "youden" };
  if ("specificity_at_least" in choose) {
    return { kind: "specificity_at_least", least: choose.specificity_at_least };
  }
  if ("sensitivity_at_least" in choose) {
    return { kind: "sensitivity_at_least", least: choose.sensitivity_at_least };
  }
  return {
    kind: "cost",
    prevalence: choose.prevalence,
    falsePositiveCost: choose.cost_of_false_positive,
    falseNegativeCost: choose.cost_of_false_negative,
  };
}
