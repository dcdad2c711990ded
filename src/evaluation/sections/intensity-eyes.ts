import { type Note, note } from "../../core/note.ts";
import { rocEyeAgainstInstrument } from "../../methods/roc/eye-against-instrument.ts";
import { rocOrdinal } from "../../methods/roc/ordinal.ts";
import type { PairedSet } from "../../records/model.ts";
import { cellOf } from "../cells.ts";
import type { Intensity } from "../document.ts";
import type { InstrumentCell } from "../instrument-cells.ts";
import { type SeenPeople, type SeenPerson, seenPeople } from "../measured-people.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

type Eye = Intensity["eyes"][number];

/** Times that people are drawn anew, and the most people of one status that this is done with. */
const REPLICATES = 300;
const MOST_DRAWN = 20_000;

/** Each reader by eye whose results are analysed, against the instrument on the same devices. */
export function eyesAgainst(
  worktop: Worktop,
  cell: InstrumentCell,
  sets: readonly PairedSet[],
): { readonly values: Eye[]; readonly notes: readonly Note[] } {
  const { analyte, kit, specimen, reader } = cell.set;
  const eyes = sets.filter(
    (set) =>
      set.analyte === analyte &&
      set.kit === kit &&
      set.specimen === specimen &&
      set.reader !== reader &&
      set.method !== "optical",
  );
  const found = eyes.map((set, place) => eyeAgainst(worktop, cell, set, `eyes.${place}`));
  return { values: found.map(({ values }) => values), notes: found.flatMap(({ notes }) => notes) };
}

function eyeAgainst(worktop: Worktop, cell: InstrumentCell, eyes: PairedSet, place: string) {
  const people = seenPeople(cell.people, eyes, worktop.treatment);
  const against = againstInstrument(worktop, cell, people, eyes, place);
  const ordinal = lineStrengths(worktop, people, place);
  const values: Eye = {
    reader: eyes.reader,
    people: {
      asked: people.asked,
      positives: people.positives.length,
      negatives: people.negatives.length,
      setAside: people.setAside,
    },
    against: against.values,
    ordinal: ordinal.values,
  };
  return { values, notes: [...against.notes, ...ordinal.notes] };
}

function againstInstrument(
  worktop: Worktop,
  { instrument, set }: InstrumentCell,
  { positives, negatives }: SeenPeople,
  { reader }: PairedSet,
  place: string,
): { readonly values: Eye["against"]; readonly notes: readonly Note[] } {
  const fault = (code: string, message: string) => ({
    values: null,
    notes: [note(code, `${place}.against`, message)],
  });
  if (positives.length === 0 || negatives.length === 0) {
    return fault("no_observations", "nobody of one status was read by both");
  }
  if (positives.length > MOST_DRAWN || negatives.length > MOST_DRAWN) {
    return fault("too_many_people", `more than ${MOST_DRAWN} people of one status: not drawn anew`);
  }
  const bothOf = (people: readonly SeenPerson[]) =>
    people.map(({ eye, reading }) => ({ reactive: eye.rapid === "reactive", reading }));
  const { values, notes } = worktop.compute(
    rocEyeAgainstInstrument,
    {
      positives: bothOf(positives),
      negatives: bothOf(negatives),
      direction: instrument.direction,
      atSteps: "middle",
    },
    {
      level: worktop.interval.level,
      replicates: REPLICATES,
      seed: worktop.seedOf(`eye against instrument ${Object.values(cellOf(set)).join(" ")} ${reader}`),
    },
  );
  return { values, notes: notesAtPlace(notes, `${place}.against`) };
}

const STRENGTHS = ["absent", "faint", "clear"] as const;

/** How strongly the eye saw the line, as a score of three steps. */
function lineStrengths(
  worktop: Worktop,
  { positives, negatives }: SeenPeople,
  place: string,
): { readonly values: Eye["ordinal"]; readonly notes: readonly Note[] } {
  const recorded = worktop.study.records.shape === "lines";
  if (!recorded || positives.length === 0 || negatives.length === 0) return { values: null, notes: [] };
  const categories = STRENGTHS.map((label) => ({
    label,
    positives: positives.filter((person) => strengthOf(person) === label).length,
    negatives: negatives.filter((person) => strengthOf(person) === label).length,
  }));
  const { values, notes } = worktop.compute(rocOrdinal, { categories }, { level: worktop.interval.level });
  return { values, notes: notesAtPlace(notes, `${place}.ordinal`) };
}

/** A reactive result of a line that was not faint had a clear one. */
function strengthOf({ eye }: SeenPerson): (typeof STRENGTHS)[number] {
  if (eye.faint) return "faint";
  return eye.rapid === "reactive" ? "clear" : "absent";
}
