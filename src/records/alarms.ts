import { lotAlarms } from "./alarms/lots.ts";
import { verificationAlarms } from "./alarms/verification.ts";
import type { Gathered } from "./gathered.ts";
import { issueRule } from "./issue-rules.ts";
import type { Alarm, PairedSet, TableLedger } from "./model.ts";
import type { Study } from "./study.ts";

/**
 * Threats to validity that the records themselves show, in a fixed order. With several kits, what hangs on
 * a kit is looked at kit by kit, and the kit is among the subjects. An alarm is a fact with its
 * count; what follows from it is for the reader to judge. Thresholds are rules of our own (common
 * practice, no source), written beside each.
 */
export function alarmsOf(gathered: Gathered, ledger: readonly TableLedger[], study: Study): Alarm[] {
  return [
    ...criterionAlarms(gathered, study),
    ...blindingAlarms(gathered),
    ...verificationAlarms(gathered),
    ...sampleAlarms(gathered, study),
    ...lotAlarms(gathered),
    ...readingAlarms(gathered),
    ...faultAlarms(gathered, ledger),
  ];
}

function alarm(
  code: Alarm["code"],
  count: number,
  total: number | null,
  subjects: readonly string[] = [],
): Alarm[] {
  return count > 0 ? [{ code, count, total, subjects }] : [];
}

/** Criteria must be fixed before the first result; the same day is too late to tell. */
function criterionAlarms({ days }: Gathered, study: Study): Alarm[] {
  const undated = study.criteria.filter((criterion) => criterion.entered_on === undefined);
  const late = study.criteria.filter(
    (criterion) => criterion.entered_on !== undefined && days !== null && criterion.entered_on >= days[0],
  );
  const total = study.criteria.length;
  return [
    ...alarm(
      "criterion_after_first_result",
      late.length,
      total,
      late.map((criterion) => criterion.id),
    ),
    ...alarm(
      "criterion_undated",
      undated.length,
      total,
      undated.map((criterion) => criterion.id),
    ),
  ];
}

function blindingAlarms({ readings, reference, copied }: Gathered): Alarm[] {
  const labs = [...reference.triggeringLabs].filter((lab) => lab !== "").sort();
  return [
    ...alarm("reference_triggered_by_index", reference.triggered, reference.total, labs),
    ...alarm("reading_not_blinded", readings.notBlinded, readings.blindingStated),
    ...alarm("reference_not_blinded", reference.notBlinded, reference.blindingStated),
    ...alarm("second_reader_copied", copied.suspect, copied.compared),
  ];
}

const ENRICHED = ["enriched", "known_positive", "known_negative"];

function sampleAlarms({ sets }: Gathered, study: Study): Alarm[] {
  const pairs = sets[0]?.pairs ?? [];
  let enriched = 0;
  let total = 0;
  const selections = new Set<string>();
  for (const { selection, weight } of pairs) {
    total += weight;
    if (!ENRICHED.includes(selection)) continue;
    enriched += weight;
    selections.add(selection);
  }
  const comparators = study.analytes.filter((analyte) => analyte.reference.role === "comparator");
  const names = comparators.map((analyte) => analyte.id);
  return [
    ...alarm("enriched_sample", enriched, total, [...selections].sort()),
    ...alarm("comparator_not_reference", comparators.length, study.analytes.length, names),
  ];
}

/** People read outside the window, kit by kit; and typed results that the reader's own lines contradict. */
function readingAlarms({ sets, interpretations }: Gathered): Alarm[] {
  const kits = [...new Set(sets.map((set) => set.kit))];
  const wrong = interpretations.filter((check) => check.typed !== check.derived);
  const readers = [...new Set(wrong.map((check) => check.reader))].sort();
  return [
    ...kits.flatMap((kit) => windowAlarm(sets, kit, kits.length > 1 ? [kit] : [])),
    ...alarm("wrong_typed_results", wrong.length, interpretations.length, readers),
  ];
}

/** For the sets of the kit's first analyte and first reader. */
function windowAlarm(sets: readonly PairedSet[], kit: string, name: readonly string[]): Alarm[] {
  const ofKit = sets.filter((set) => set.kit === kit);
  const [first] = ofKit;
  const looked = ofKit.filter((set) => set.analyte === first?.analyte && set.reader === first.reader);
  let outside = 0;
  let total = 0;
  const specimens: string[] = [];
  for (const set of looked) {
    const read = set.pairs.filter((pair) => pair.rapid !== "not_done");
    const out = read.filter((pair) => pair.window === "early" || pair.window === "late");
    total += read.length;
    outside += out.length;
    if (out.length > 0) specimens.push(set.specimen);
  }
  return alarm("outside_window", outside, total, [...name, ...specimens]);
}

/** Rows set aside for a fault; rows set aside by design (later visits, not eligible, …) are not meant. */
function faultAlarms(_: Gathered, ledger: readonly TableLedger[]): Alarm[] {
  let faulty = 0;
  let total = 0;
  const files: string[] = [];
  for (const { file, rows, setAside } of ledger) {
    const bad = setAside
      .filter(({ reason }) => issueRule(reason)?.severity !== "note")
      .reduce((sum, entry) => sum + entry.rows.length, 0);
    total += rows;
    faulty += bad;
    if (bad > 0) files.push(file);
  }
  return alarm("rows_set_aside", faulty, total, files);
}
