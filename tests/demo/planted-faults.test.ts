import { describe, expect, it } from "vitest";
import { type FaultKind, PLANTED } from "../../src/demo/fault.ts";
import { committedTruth, recordsOf, rowsOf } from "./folder.ts";

const truth = committedTruth();
const records = recordsOf("demo");

/** The rule that must find each planted fault. A retest because of the rapid result is an alarm, not an issue. */
const RULE: Readonly<Record<Exclude<FaultKind, "triggered_by_index">, string>> = {
  duplicate_cassette: "duplicate_device",
  read_before_applied: "result_before_application",
  fahrenheit: "fahrenheit",
  expired_lot: "expired_lot",
  person_enrolled_twice: "enrolled_twice",
  second_reader_copied: "second_reader_copied",
  drops_out_of_range: "drops_out_of_range",
  repeat_without_invalid: "repeat_without_invalid",
  line_without_control: "typed_reactive_without_control",
  reference_without_specimen: "unknown_reference_id",
  date_outside_study: "date_outside_study",
};

const issues = records.issues.map(({ rule, file, row, severity }) => ({ rule, file, row, severity }));
const place = (rule: string, file: string, row: number | null) => `${rule} at ${file}:${row}`;

/** A fault of a whole reading stands at its first line's row. */
const expected = truth.faults.flatMap(({ kind, file, rows }) =>
  kind === "triggered_by_index" ? [] : [place(RULE[kind], file, rows[0] ?? null)],
);

describe("the planted faults of the demo study", () => {
  it("are as many as described", () => {
    for (const [kind, count] of Object.entries(PLANTED)) {
      expect(truth.faults.filter((fault) => fault.kind === kind).length, kind).toBe(count);
    }
  });

  it("stand in the very rows that the truth names", () => {
    for (const { file, rows, column, id, kind } of truth.faults) {
      const table = rowsOf("demo", file);
      for (const row of rows) {
        const cells = table[row - 2] ?? {};
        expect(Object.keys(cells), `${file}, ${kind}`).toContain(column);
        expect(Object.values(cells), `${file}:${row}`).toContain(id);
      }
    }
  });

  it("are all found, by the right rule in the right row, and nothing else is an error or a warning", () => {
    const found = issues
      .filter(({ severity, rule }) => severity !== "note" && rule !== "missing_reference")
      .map(({ rule, file, row }) => place(rule, file, row));
    expect(found.sort()).toEqual([...expected].sort());
  });

  it("people whose plasma is pending or lost are missed by name, once for each analyte", () => {
    const participants = rowsOf("demo", "participants.csv");
    const missed = issues
      .filter(({ rule }) => rule === "missing_reference")
      .map(({ row }) => participants[(row ?? 0) - 2]?.participant_id);
    const without = [...truth.withoutReference.pending, ...truth.withoutReference.lost];
    const people = without.map((specimen) => specimen.slice(0, -"-1P".length));
    expect(missed.sort()).toEqual([...people, ...people].sort());
  });

  it("the only notes are unrecorded times, typing errors and invalid results without a reason", () => {
    const noted = issues.filter(({ severity }) => severity === "note").map(({ rule }) => rule);
    const count = (wanted: string) => noted.filter((rule) => rule === wanted).length;
    expect([...new Set(noted)].sort()).toEqual([
      "missing_invalid_reason",
      "missing_time",
      "typed_result_differs",
    ]);
    expect(count("typed_result_differs")).toBe(
      truth.interpretations.differing - PLANTED.line_without_control,
    );
    expect(count("missing_time")).toBe(countedWithout("line_readings.csv", "read_at", "C"));
    // Lines called reactive or nonreactive without a control line: nobody wrote an invalid reason.
    expect(count("missing_invalid_reason")).toBe(invalidWithoutReason());
  });

  it("raise the alarms that they should, with their counts, and rows set aside besides", () => {
    const raised = records.alarms.map(({ code, count, subjects }) => ({ code, count, subjects }));
    const others = raised.filter(({ code }) => code !== "rows_set_aside");
    const byCode = (one: { code: string }, other: { code: string }) => (one.code < other.code ? -1 : 1);
    expect(others.sort(byCode)).toEqual([...truth.alarms].sort(byCode));
    expect(raised.length).toBe(truth.alarms.length + 1);
  });
});

/** Devices of first visits and first enrolments, less the needless repeats, from the tables as text. */
function countedDevices(): Set<string> {
  const idsOf = (kind: FaultKind) =>
    new Set(truth.faults.filter((fault) => fault.kind === kind).map(({ id }) => id));
  const again = idsOf("person_enrolled_twice");
  const needless = idsOf("repeat_without_invalid");
  const counted = rowsOf("demo", "index_tests.csv").filter(({ specimen_id = "", cassette_id = "" }) => {
    const [site, number, visit] = specimen_id.split("-");
    return visit?.startsWith("1") && !again.has(`${site}-${number}`) && !needless.has(cassette_id);
  });
  return new Set(counted.map(({ cassette_id = "" }) => cassette_id));
}

function countedWithout(table: string, column: string, line: string): number {
  const devices = countedDevices();
  return rowsOf("demo", table).filter(
    (row) => row.line_id === line && row[column] === "" && devices.has(row.cassette_id ?? ""),
  ).length;
}

function invalidWithoutReason(): number {
  const devices = countedDevices();
  const silent = new Set(
    rowsOf("demo", "index_tests.csv")
      .filter(({ invalid_reason }) => invalid_reason === "")
      .map(({ cassette_id }) => cassette_id),
  );
  const readings = rowsOf("demo", "line_readings.csv").filter(
    ({ line_id, line_seen, reader_id, cassette_id = "" }) =>
      reader_id === "R1" &&
      ((line_id === "C" && line_seen === "absent") || (line_id === "T1" && line_seen === "unreadable")) &&
      devices.has(cassette_id),
  );
  return readings.filter(({ cassette_id }) => silent.has(cassette_id)).length;
}
