import type { Kit } from "../../src/records/kit.ts";
import type { Pair, PairedSet, StudyRecords } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";

/**
 * A made-up study small enough to be counted by hand. Nothing of it is real.
 *
 * Twenty people by default: reference-positive 10 (8 reactive, 1 non-reactive, 1 invalid),
 * reference-negative 9 (1 reactive, 8 non-reactive), indeterminate 1 (reactive).
 */
export const tinyKit: Kit = {
  format: "fourfold-kit/1",
  id: "made-up-kit",
  title: "A made-up kit",
  lines: [
    { id: "C", role: "control" },
    { id: "T1", role: "test", analyte: "one" },
  ],
  specimens: [{ type: "serum" }],
  timed_from: "buffer_applied",
  reading_window: { from_minutes: 15, to_minutes: 20 },
  faint_line: "reactive",
  repeat: { max_attempts: 2 },
  source: { title: "made up" },
};

export const tinyStudy: Study = {
  format: "fourfold-study/1",
  id: "tiny",
  title: "A study to be counted by hand",
  status: "locked",
  kit: "kit.yaml",
  sites: [
    { id: "north", title: "North" },
    { id: "south", title: "South" },
  ],
  arms: [{ id: "all", title: "All comers", selection: "consecutive" }],
  analytes: [
    {
      id: "one",
      title: "Analyte one",
      reference: {
        title: "a made-up reference",
        role: "reference_standard",
        discrepancies: "none were settled",
      },
    },
  ],
  specimens: [{ type: "serum", title: "Serum" }],
  readers: { use: "primary", primary: "R1", disagreement: "set_aside" },
  criteria: [],
  prevalences: [],
  strata: [],
  comparisons: [],
  latent_class: [],
  instruments: [],
  panels: [],
  decision: { control: "each" },
  treatment: { invalid: "set_aside", outside_window: "keep", repeat: "last" },
  interval: { method: "clopper_pearson", level: 0.95 },
  seed: 1,
  deviations: [],
  records: {
    shape: "results",
    table: "results.csv",
    columns: {},
    analytes: [{ analyte: "one", rapid: "rapid", reference: "reference" }],
    codes: {
      rapid: { reactive: ["1"], nonreactive: ["0"], invalid: [], not_done: [] },
      reference: { positive: ["1"], negative: ["0"], indeterminate: [], not_done: [] },
    },
  },
};

let next = 0;

/** One person, in time and consecutive unless told otherwise. */
export function person(changes: Partial<Pair> & Pick<Pair, "rapid" | "reference">): Pair {
  next += 1;
  return {
    person: `P${String(next).padStart(4, "0")}`,
    weight: 1,
    firstRapid: changes.rapid,
    invalidReason: changes.rapid === "invalid" ? "control_absent" : null,
    faint: false,
    window: "in",
    minutes: 17,
    site: "north",
    selection: "consecutive",
    strata: {},
    ...changes,
  };
}

/** So many people alike. */
export function people(howMany: number, changes: Partial<Pair> & Pick<Pair, "rapid" | "reference">): Pair[] {
  return Array.from({ length: howMany }, () => person(changes));
}

export function setOf(pairs: readonly Pair[], changes: Partial<PairedSet> = {}): PairedSet {
  return {
    analyte: "one",
    kit: "made-up-kit",
    specimen: "serum",
    reader: "R1",
    method: "eye",
    pairs,
    before: [],
    ...changes,
  };
}

export function twentyPeople(): Pair[] {
  return [
    ...people(8, { rapid: "reactive", reference: "positive" }),
    person({ rapid: "nonreactive", reference: "positive" }),
    person({ rapid: "invalid", reference: "positive" }),
    person({ rapid: "reactive", reference: "negative" }),
    ...people(8, { rapid: "nonreactive", reference: "negative" }),
    person({ rapid: "reactive", reference: "indeterminate" }),
  ];
}

/** Records around these sets; everything else as plain as can be. */
export function tinyRecords(
  sets: readonly PairedSet[] = [setOf(twentyPeople())],
  changes: { study?: Partial<Study>; kit?: Partial<Kit> } & Partial<
    Omit<StudyRecords, "study" | "sets">
  > = {},
): StudyRecords {
  const { study, kit, ...rest } = changes;
  return {
    study: { ...tinyStudy, ...study },
    kits: [{ ...tinyKit, ...kit }],
    issues: [],
    ledger: [],
    results: [],
    interpretations: [],
    rereadings: [],
    sets,
    panels: [],
    alarms: [],
    totals: {
      enrolled: 20,
      devices: 21,
      readings: 21,
      lots: ["L1"],
      sites: ["north"],
      operators: 2,
      firstResultOn: "2026-01-05",
      lastResultOn: "2026-02-27",
      lineWithoutControl: 0,
      repeats: 1,
    },
    ...rest,
  };
}

const HASH = "0".repeat(64);

export const tinyInputs = [
  { name: "study.yaml", bytes: 900, sha256: HASH, rows: null },
  { name: "kit.yaml", bytes: 500, sha256: HASH, rows: null },
  { name: "results.csv", bytes: 400, sha256: HASH, rows: 20 },
];
