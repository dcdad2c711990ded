import { type Note, note } from "../../core/note.ts";
import { rocDetectionLimit } from "../../methods/roc/detection-limit.ts";
import type { PanelRow } from "../../records/model.ts";
import { mainKit } from "../cells.ts";
import type { Panel } from "../document.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

type Planned = Worktop["study"]["panels"][number];

/** Rows that one fit takes. */
const MOST_ROWS = 500;
/** Chances besides the one that the study file names. */
const FURTHER_CHANCES = [0.05, 0.5];

/** The limit of detection by every dilution panel of the study file. */
export function panelsSection(worktop: Worktop): Panel[] {
  return worktop.study.panels.map((planned, place) =>
    panelOf(worktop, planned, worktop.records.panels[place]?.rows ?? []),
  );
}

function panelOf(worktop: Worktop, planned: Planned, rows: readonly PanelRow[]): Panel {
  const dilutions = rows.filter(({ concentration }) => concentration > 0);
  const together = fitOf(worktop, planned, rows, "values");
  const lots = lotsOf(rows).map((lot, place) => {
    const own = rows.filter((row) => (row.lot ?? NOT_RECORDED) === lot);
    return { lot, ...fitOf(worktop, planned, own, `lots.${place}.values`) };
  });
  return {
    id: planned.id,
    title: planned.title,
    analyte: planned.analyte,
    kit: planned.kit ?? mainKit(worktop.records),
    unit: planned.unit,
    chance: planned.chance,
    lackOfFit: planned.lack_of_fit,
    source: planned.source ?? null,
    table: planned.table,
    rows: { used: dilutions.length, blanks: rows.length - dilutions.length },
    devices: {
      tested: dilutions.reduce((sum, { tested }) => sum + tested, 0),
      reactive: dilutions.reduce((sum, { reactive }) => sum + reactive, 0),
    },
    values: together.values,
    lots: lots.flatMap(({ lot, values }) => (values === null ? [] : [{ lot, values }])),
    notes: [...together.notes, ...lots.flatMap(({ notes }) => notes)],
  };
}

const NOT_RECORDED = "not_recorded";

/** Lots by name, where there are several. */
function lotsOf(rows: readonly PanelRow[]): string[] {
  const lots = new Set(rows.map(({ lot }) => lot ?? NOT_RECORDED));
  return lots.size > 1 ? [...lots].sort() : [];
}

function fitOf(
  worktop: Worktop,
  { chance, lack_of_fit: lackOfFit }: Planned,
  rows: readonly PanelRow[],
  place: string,
): { readonly values: Panel["values"]; readonly notes: readonly Note[] } {
  const dilutions = rows.filter(({ concentration }) => concentration > 0);
  const blanks = rows.filter(({ concentration }) => concentration === 0);
  if (dilutions.length === 0) {
    return { values: null, notes: [note("no_observations", place, "no row with a concentration above 0")] };
  }
  if (dilutions.length > MOST_ROWS) {
    const message = `${dilutions.length} rows, more than the ${MOST_ROWS} that one fit takes: add up runs`;
    return { values: null, notes: [note("too_many_rows", place, message)] };
  }
  const sum = (of: "tested" | "reactive") => blanks.reduce((total, row) => total + row[of], 0);
  const probabilities = [...new Set([...FURTHER_CHANCES, chance])].sort((one, other) => one - other);
  const { values, notes } = worktop.compute(
    rocDetectionLimit,
    {
      levels: dilutions.map(({ concentration, tested, reactive }) => ({ concentration, tested, reactive })),
      blank: blanks.length === 0 ? null : { tested: sum("tested"), reactive: sum("reactive") },
      lackOfFit,
    },
    { level: worktop.interval.level, probabilities },
  );
  return { values, notes: notesAtPlace(notes, place) };
}
