import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { issueRule } from "../../src/records/issue-rules.ts";
import type { StudyRecords } from "../../src/records/model.ts";
import { readStudy } from "../../src/records/read-study.ts";
import { tally } from "../../src/records/tallies.ts";
import { buildStudy, kitPlan, type PersonPlan, type Row, type Tables } from "./build-study.ts";
import { accounts } from "./expect-records.ts";

/**
 * Generated studies of two kits, some devices read again, whole and damaged: whatever the damage, every row has exactly one fate, every
 * person of every paired set is accounted for, and reading never throws.
 */
const seen = fc.constantFrom("absent", "faint", "clear", "clear", "unreadable");
const control = fc.constantFrom("clear", "clear", "absent", "unreadable");
const readingOf = (lines: fc.Arbitrary<string[]>) =>
  fc.record(
    {
      reader: fc.constantFrom("R1", "R2"),
      lines,
      minutes: fc.constantFrom(null, 5, 16, 17, 30, -4, 2000),
      row: fc.constantFrom({}, {}, { reading_no: "2" }, { reading_no: "3" }),
    },
    { requiredKeys: ["lines"] },
  );
const reading = readingOf(fc.tuple(control, seen, seen));
const otherReading = readingOf(fc.tuple(control, seen));
const deviceOf = (kit_id: string, readings: fc.Arbitrary<object>) =>
  fc.record(
    {
      specimen: fc.constantFrom("venous", "fingerstick", "serum"),
      visit: fc.constantFrom(1, 1, 2),
      attempt: fc.constantFrom(1, 1, 2, 3),
      row: fc.constantFrom({ kit_id }, { kit_id }, { kit_id, invalid_reason: "no_flow" }),
      readings: fc.array(readings, { maxLength: 4 }),
    },
    { requiredKeys: ["readings", "row"] },
  );
const device = fc.oneof(deviceOf("kit-x", reading), deviceOf("", reading), deviceOf("kit-y", otherReading));
const status = fc.constantFrom("positive", "negative", "indeterminate");
const person = fc.record(
  {
    site: fc.constantFrom("S1", "S2", "S3"),
    reference: fc.record({ A1: status, A2: status }, { requiredKeys: [] }),
    devices: fc.array(device, { maxLength: 4 }),
    participant: fc.record(
      {
        consent: fc.constantFrom("true", "no"),
        eligible: fc.constantFrom("1", "0"),
        person_key: fc.constantFrom("", "k1", "k2"),
      },
      { requiredKeys: [] },
    ),
  },
  { requiredKeys: [] },
);

/** One piece of damage: a cell overwritten, a row doubled or a row taken out. */
const damage = fc.record({
  table: fc.constantFrom<keyof Tables>(
    "participants",
    "specimens",
    "index_tests",
    "line_readings",
    "reference_tests",
    "interpretations",
  ),
  row: fc.nat(30),
  column: fc.nat(20),
  value: fc.constantFrom("", "P1", "P2-d1", "nonsense", "7", "2026-04-10T09:00:00+02:00", "reactive", "\0"),
  kind: fc.constantFrom("cell", "cell", "double", "remove"),
});
type Damage = typeof damage extends fc.Arbitrary<infer Value> ? Value : never;

function apply(tables: Tables, { table, row, column, value, kind }: Damage): void {
  const rows: Row[] = tables[table];
  if (rows.length === 0) return;
  const at = row % rows.length;
  const target = rows[at] as Row;
  const names = Object.keys(target);
  if (kind === "double") rows.push({ ...target });
  else if (kind === "remove") rows.splice(at, 1);
  else target[names[column % names.length] as string] = value;
}

const study = fc.record({
  people: fc.array(person, { maxLength: 6 }),
  damages: fc.array(damage, { maxLength: 8 }),
  use: fc.constantFrom("primary", "consensus", "each"),
  repeat: fc.constantFrom("first", "last", "any"),
});

function typeResults(tables: Tables): void {
  for (const { cassette_id, reader_id } of tables.line_readings) {
    if (cassette_id === undefined || reader_id === undefined || tables.interpretations.length > 12) continue;
    tables.interpretations.push({ cassette_id, reader_id, analyte_id: "A1", result_typed: "reactive" });
  }
}

/** Rows analysed, as the ledger says. */
function analysedRows(records: StudyRecords) {
  const of = (file: string) => records.ledger.find((entry) => entry.file === `${file}.csv`)?.analysed;
  return {
    participants: of("participants"),
    index_tests: of("index_tests"),
    interpretations: of("interpretations"),
    line_readings: hasRecordedOnly(records) ? null : of("line_readings"),
  };
}

/** The same counted from the other end: from results and second readings, by their own identifiers. */
function rowsBehindResults(records: StudyRecords) {
  const readings = new Map<string, number>();
  for (const { device, reader, method } of records.results) {
    const key = `${device} ${reader} ${method}`;
    readings.set(key, (readings.get(key) ?? 1) + 1);
  }
  for (const { device, reader } of records.rereadings) {
    const key = `${device} ${reader} again`;
    readings.set(key, (readings.get(key) ?? 1) + 1);
  }
  const lines = [...readings.values()].reduce((sum, rows) => sum + rows, 0);
  const disagreeing =
    records.sets[0]?.before.find((entry) => entry.reason === "readers_disagree")?.people ?? 0;
  return {
    participants: (records.sets[0]?.pairs.length ?? 0) + disagreeing,
    index_tests: new Set(records.results.map((result) => result.device)).size,
    interpretations: records.interpretations.length,
    line_readings: hasRecordedOnly(records) ? null : lines,
  };
}

/** Results recorded as invalid may have no lines behind them. */
function hasRecordedOnly(records: StudyRecords): boolean {
  return records.results.some((result) => result.reason === "recorded_invalid");
}

describe("accounting", () => {
  it("gives each row one fate and each person one place, whatever the damage", () => {
    fc.assert(
      fc.property(study, ({ people, damages, use, repeat }) => {
        const plan = people.map((entry, index) => ({ ...entry, id: `P${index + 1}` }) as PersonPlan);
        const files = buildStudy({
          people: plan,
          other: true,
          study: {
            readers: { use, primary: "R1", disagreement: "set_aside" },
            treatment: { invalid: "set_aside", outside_window: "keep", repeat },
          },
          edit: (tables) => {
            typeResults(tables);
            for (const one of damages) apply(tables, one);
          },
        });
        const read = readStudy(files);
        expect(read.ok).toBe(true);
        if (!read.ok) return;
        const { records } = read;
        expect(accounts(records)).toEqual({ rows: true, people: true });
        for (const { rows, file } of records.ledger) {
          const text = new TextDecoder().decode(files.find((entry) => entry.name === file)?.bytes);
          expect(rows).toBe(text.trimEnd().split("\n").length - 1);
        }
        expect(analysedRows(records)).toEqual(rowsBehindResults(records));
        for (const { setAside } of records.ledger) {
          for (const { reason } of setAside) expect(issueRule(reason)).not.toBeNull();
        }
        for (const set of records.sets) {
          expect(new Set(set.pairs.map((pair) => pair.person)).size).toBe(set.pairs.length);
          const found = tally(set, { invalid: "failure", outsideWindow: "invalid" });
          const aside = found.setAside.reduce((sum, entry) => sum + entry.people, 0);
          expect(found.analysed + aside).toBe(set.pairs.length);
        }
        expect(JSON.stringify(records)).not.toMatch(/NaN|Infinity/);
      }),
      { numRuns: 150 },
    );
  });

  it("a study of another kit alone gives that kit the same sets", () => {
    fc.assert(
      fc.property(fc.array(person, { maxLength: 5 }), (people) => {
        const plan = (kit_id: string) =>
          people.map((entry, index) => {
            const devices = entry.devices?.map((used) => ({ ...used, row: { ...used.row, kit_id } }));
            return { ...entry, id: `P${index + 1}`, devices: devices ?? [] } as PersonPlan;
          });
        const setsOf = (kit: string) => {
          const read = readStudy(
            buildStudy({ people: plan(kit), other: { ...kitPlan(), id: "kit-y", title: "The same kit" } }),
          );
          if (!read.ok) return null;
          const { sets, rereadings } = read.records;
          const bare = (list: readonly { kit: string }[]) =>
            list.filter((entry) => entry.kit === kit).map((entry) => ({ ...entry, kit: "" }));
          return { sets: bare(sets), rereadings: bare(rereadings) };
        };
        expect(setsOf("kit-y")).toEqual(setsOf("kit-x"));
      }),
      { numRuns: 40 },
    );
  });

  it("does not depend on the order of independent rows", () => {
    fc.assert(
      fc.property(fc.array(person, { minLength: 2, maxLength: 5 }), (people) => {
        const plan = people.map((entry, index) => {
          const { participant: _, ...rest } = entry;
          return { ...rest, id: `P${index + 1}` } as PersonPlan;
        });
        const counts = (order: readonly PersonPlan[]) => {
          const read = readStudy(buildStudy({ people: order, other: true }));
          if (!read.ok) return null;
          return read.records.sets.map(
            (set) => tally(set, { invalid: "failure", outsideWindow: "keep" }).counts,
          );
        };
        expect(counts([...plan].reverse())).toEqual(counts(plan));
      }),
      { numRuns: 40 },
    );
  });
});
