import { type Note, note } from "../../core/note.ts";
import { rocCalibration } from "../../methods/roc/calibration.ts";
import { rocCurve } from "../../methods/roc/curve.ts";
import { cellOf, mainKit } from "../cells.ts";
import type { Intensity } from "../document.ts";
import {
  type InstrumentCell,
  instrumentCells,
  isProbability,
  isTooLarge,
  linesOf,
} from "../instrument-cells.ts";
import { countsOf, readingsOf } from "../measured-people.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { chosenCutoff, statedCutoff } from "./intensity-cutoffs.ts";
import { distributionOf } from "./intensity-distribution.ts";
import { eyesAgainst } from "./intensity-eyes.ts";

/** Points of a curve that the document carries. */
const POINTS = 100;

export interface Intensities {
  readonly cells: readonly InstrumentCell[];
  readonly intensities: Intensity[];
  readonly notes: readonly Note[];
}

/** Readings of every instrument that the study file names, in each cell where it measured somebody. */
export function intensitiesSection(worktop: Worktop, sets: Parameters<typeof eyesAgainst>[2]): Intensities {
  const all = instrumentCells(worktop);
  const cells = all.filter((cell) => !isTooLarge(cell));
  const notes = all.filter(isTooLarge).map(({ set }) => {
    const { analyte, kit, specimen, reader } = set;
    const message = `${analyte}, ${kit}, ${specimen}, ${reader}: more readings than the curves can be drawn from`;
    return note("too_many_readings", "intensities", message);
  });
  return { cells, intensities: cells.map((cell) => intensityOf(worktop, cell, sets)), notes };
}

function intensityOf(
  worktop: Worktop,
  cell: InstrumentCell,
  sets: Parameters<typeof eyesAgainst>[2],
): Intensity {
  const { instrument, set, people } = cell;
  const readings = { positives: readingsOf(people.positives), negatives: readingsOf(people.negatives) };
  const { level } = worktop.interval;
  const curve = worktop.compute(
    rocCurve,
    { ...readings, direction: instrument.direction },
    { level, points: POINTS },
  );
  const stated = statedCutoff(worktop, cell);
  const chosen = chosenCutoff(worktop, cell, readings);
  const eyes = eyesAgainst(worktop, cell, sets);
  const distribution = distributionOf(worktop, cell, readings);
  const calibration = isProbability(cell, worktop.study, mainKit(worktop.records))
    ? worktop.compute(rocCalibration, readings, { level, edge: EDGE })
    : null;
  return {
    ...cellOf(set),
    lines: linesOf(cell, worktop.study),
    unit: instrument.unit,
    direction: instrument.direction,
    scale: instrument.scale,
    people: countsOf(people),
    curve: curve.values,
    stated: stated.values,
    chosen: chosen.values,
    eyes: eyes.values,
    distribution: distribution.values,
    calibration: calibration?.values ?? null,
    notes: [
      ...notesAtPlace(curve.notes, "curve"),
      ...stated.notes,
      ...chosen.notes,
      ...eyes.notes,
      ...distribution.notes,
      ...notesAtPlace(calibration?.notes ?? [], "calibration"),
    ],
  };
}

/** Probabilities of 0 and 1 have no log odds; those moved are counted in the values. */
const EDGE = 0.001;
