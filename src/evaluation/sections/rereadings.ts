import { NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { paired } from "../../methods/comparison/paired.ts";
import type { PairedSet, RapidResult, Reread } from "../../records/model.ts";
import type { Reread as RereadEntry } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

const RESULTS: readonly RapidResult[] = ["reactive", "nonreactive", "invalid"];

/**
 * Devices that one reader read twice, usually in time and again later: what the second reading changed.
 * The same device each time, so that time is compared and nothing else. Differences of the two measures
 * are of the second reading less the first, among devices with both readings valid.
 */
export function rereadingsSection(worktop: Worktop): RereadEntry[] {
  const { study, kits, rereadings } = worktop.records;
  const groups = new Map<string, Reread[]>();
  for (const reread of rereadings) {
    const key = [reread.analyte, reread.kit, reread.specimen, reread.reader].join("\u0000");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [reread]);
    else group.push(reread);
  }
  const orders = [
    study.analytes.map((analyte) => analyte.id),
    kits.map((kit) => kit.id),
    study.specimens.map((specimen) => specimen.type),
  ];
  const rank = ({ analyte, kit, specimen, reader }: RereadEntry) => [
    ...[analyte, kit, specimen].map((name, at) => (orders[at]?.indexOf(name) ?? 0) + 1),
    reader === study.readers.primary ? 0 : 1,
  ];
  return [...groups.values()]
    .map((rereads) => oneReader(worktop, rereads))
    .sort((one, other) => byRank(rank(one), rank(other)) || (one.reader < other.reader ? -1 : 1));
}

function byRank(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((place, index) => place !== other[index]);
  return at < 0 ? 0 : (one[at] as number) - (other[at] as number);
}

function oneReader(worktop: Worktop, rereads: readonly Reread[]): RereadEntry {
  const { analyte, kit, specimen, reader } = rereads[0] as Reread;
  const valid = rereads.filter(
    ({ first, second }) => first.result !== "invalid" && second.result !== "invalid",
  );
  const by = crossed(valid, ({ result }) => result === "reactive");
  const { values, notes } = worktop.compute(paired, by, worktop.interval);
  const measured = measuresOf(worktop, valid);
  return {
    analyte,
    kit,
    specimen,
    reader,
    devices: rereads.length,
    transitions: RESULTS.flatMap((first) =>
      RESULTS.map((second) => ({
        first,
        second,
        devices: rereads.filter((entry) => entry.first.result === first && entry.second.result === second)
          .length,
      })),
    ).filter(({ devices }) => devices > 0),
    flipped: worktop.proportion(by.firstOnly + by.secondOnly, valid.length),
    mcnemarPValue: values.mcNemar.exact,
    sensitivityDifference: measured.sensitivity,
    specificityDifference: measured.specificity,
    notes: [...notesUnder(notes, { mcNemar: "mcnemarPValue" }), ...measured.notes],
  };
}

/** Devices by both readings; `first` stands for the second reading, as the difference is second less first. */
function crossed(rereads: readonly Reread[], holds: (read: Reread["first"]) => boolean) {
  const counts = { both: 0, firstOnly: 0, secondOnly: 0, neither: 0 };
  for (const { first, second } of rereads) {
    if (holds(second)) counts[holds(first) ? "both" : "firstOnly"] += 1;
    else counts[holds(first) ? "secondOnly" : "neither"] += 1;
  }
  return counts;
}

/** Both measures on the people whose reference status is known; of a repeated device the last one counts. */
function measuresOf(worktop: Worktop, valid: readonly Reread[]) {
  const { analyte, kit, specimen } = valid[0] ?? { analyte: "", kit: "", specimen: "" };
  const set = worktop.records.sets.find(
    (one) => one.analyte === analyte && one.kit === kit && one.specimen === specimen,
  );
  const status = referenceOf(set);
  const lastOf = new Map(valid.map((reread) => [reread.person, reread]));
  const notes: Note[] = [];
  const difference = (reference: "positive" | "negative", right: RapidResult, path: string) => {
    const people = [...lastOf.values()].filter(({ person }) => status.get(person) === reference);
    if (people.length === 0) {
      const message = `no reference-${reference} person's device was read twice with valid results`;
      notes.push(note("no_observations", path, message));
      return NOT_ESTIMABLE;
    }
    const counts = crossed(people, ({ result }) => result === right);
    return worktop.compute(paired, counts, worktop.interval).values.difference;
  };
  return {
    sensitivity: difference("positive", "reactive", "sensitivityDifference"),
    specificity: difference("negative", "nonreactive", "specificityDifference"),
    notes,
  };
}

function referenceOf(set: PairedSet | undefined): ReadonlyMap<string, string> {
  return new Map(set?.pairs.map(({ person, reference }) => [person, reference]) ?? []);
}
