import { note } from "../../core/note.ts";
import { rocCompare } from "../../methods/roc/compare.ts";
import type { IntensityComparison } from "../document.ts";
import type { InstrumentCell } from "../instrument-cells.ts";
import type { MeasuredPerson } from "../measured-people.ts";
import type { Worktop } from "../worktop.ts";

/** Curves of two kits or two instruments on the same people, wherever both measured. */
export function intensityComparisonsSection(
  worktop: Worktop,
  cells: readonly InstrumentCell[],
): IntensityComparison[] {
  return cells.flatMap((first, place) =>
    cells
      .slice(place + 1)
      .filter(({ set }) => set.analyte === first.set.analyte && set.specimen === first.set.specimen)
      .map((second) => compared(worktop, first, second)),
  );
}

function compared(worktop: Worktop, first: InstrumentCell, second: InstrumentCell): IntensityComparison {
  const positives = joined(first.people.positives, second.people.positives);
  const negatives = joined(first.people.negatives, second.people.negatives);
  const aside = [
    { reason: "first_only", people: positives.firstOnly + negatives.firstOnly },
    { reason: "second_only", people: positives.secondOnly + negatives.secondOnly },
  ].filter(({ people }) => people > 0);
  const both = { positives: positives.both.length, negatives: negatives.both.length };
  const asked = both.positives + both.negatives + aside.reduce((sum, { people }) => sum + people, 0);
  const sideOf = ({ set, instrument }: InstrumentCell) => ({
    kit: set.kit,
    reader: set.reader,
    unit: instrument.unit,
  });
  const side = (which: "first" | "second", { instrument }: InstrumentCell) => ({
    positives: positives.both.map((pair) => pair[which]),
    negatives: negatives.both.map((pair) => pair[which]),
    direction: instrument.direction,
  });
  const head = {
    analyte: first.set.analyte,
    specimen: first.set.specimen,
    first: sideOf(first),
    second: sideOf(second),
    people: { asked, ...both, setAside: aside },
  };
  if (both.positives === 0 || both.negatives === 0) {
    const message = "nobody of one status was measured by both";
    return { ...head, values: null, notes: [note("no_observations", "values", message)] };
  }
  const { values, notes } = worktop.compute(
    rocCompare,
    { design: "paired", first: side("first", first), second: side("second", second) },
    { level: worktop.interval.level },
  );
  return { ...head, values, notes: notes.map((entry) => ({ ...entry, path: `values.${entry.path}` })) };
}

function joined(first: readonly MeasuredPerson[], second: readonly MeasuredPerson[]) {
  const others = new Map(second.map(({ pair, reading }) => [pair.person, reading]));
  const both = first.flatMap(({ pair, reading }) => {
    const other = others.get(pair.person);
    return other === undefined ? [] : [{ first: reading, second: other }];
  });
  return {
    both,
    firstOnly: first.length - both.length,
    secondOnly: second.length - both.length,
  };
}
