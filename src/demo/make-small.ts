import { byReference, type Case, cellsOf, fourfold } from "./cases.ts";
import { drawsOf } from "./draws.ts";
import { demoKitText } from "./kit-text.ts";
import type { DemoFile } from "./make-demo.ts";
import { readAgain } from "./readings.ts";
import type { Plan } from "./scenario.ts";
import { simulate } from "./simulate.ts";
import { countsStudyText, partlyVerifiedStudyText, wideStudyText } from "./small-texts.ts";
import { csvText, type Row, type RowsOf, readingRows, type Table, writeTables } from "./tables.ts";
import type { World } from "./world.ts";

const NOTHING_PLANTED = { secondVisits: 0, secondEnrolments: 0, linesWithoutControl: 0, triggeredByIndex: 0 };
export const WIDE_SEED = 20260402;
export const WIDE_PLAN: Plan = {
  ...NOTHING_PLANTED,
  sizes: { B: 70, O: 50, T: 0, K: 0, L: 0 },
  pending: 1,
  lost: 0,
};
const COUNTS_SEED = 20260403;
const COUNTS_PLAN: Plan = {
  ...NOTHING_PLANTED,
  sizes: { B: 900, O: 700, T: 500, K: 0, L: 0 },
  pending: 0,
  lost: 0,
};

/**
 * A small study of the same invented world, its readings in the wide form, some devices read a second
 * time by the first reader. Nothing is planted.
 */
export function makeWide(): DemoFile[] {
  const world = simulate({ seed: WIDE_SEED, plan: WIDE_PLAN });
  const { tables, rowsOf } = writeTables(world);
  const kept = [tables.participants, tables.specimens, tables.index_tests, tables.reference_tests];
  return [
    { name: "study.yaml", text: wideStudyText(WIDE_SEED, ["B", "O"]) },
    { name: "kit.yaml", text: demoKitText() },
    ...[...kept, wideReadings(world, rowsOf)].map((table) => ({
      name: `${table.name}.csv`,
      text: csvText(table),
    })),
  ];
}

/** Each reading followed by the second look at the same device, where there was one. */
function wideReadings(world: World, { reading }: RowsOf): Table {
  const again = new Map(
    readAgain(WIDE_SEED, world.readings, world.effects).map((look) => [look.device, look]),
  );
  const rows = [...reading].flatMap(([first, lines]): Row[] => {
    const second = first.reader === "R1" ? again.get(first.device) : undefined;
    const row = wideRow(lines, "1");
    return second === undefined ? [row] : [row, wideRow(readingRows(second), "2")];
  });
  return { name: "readings", columns: Object.keys(rows[0] ?? {}), rows };
}

function wideRow(lines: readonly Row[], reading_no: string): Row {
  const [control, first, second] = lines as readonly [Row, Row, Row];
  const seen = (row: Row) => row.line_seen || row.intensity || "";
  return {
    cassette_id: control.cassette_id ?? "",
    reader_id: control.reader_id ?? "",
    method: control.method ?? "",
    reading_no,
    read_at: control.read_at ?? "",
    control_line: seen(control),
    t1_line: seen(first),
    t2_line: seen(second),
    blinded: reading_no === "1" ? (control.blinded ?? "") : "false",
    entered_at: control.entered_at ?? "",
  };
}

/** A study of the same invented world of which only counts are left. */
export function makeCounts(): DemoFile[] {
  const world = simulate({ seed: COUNTS_SEED, plan: COUNTS_PLAN });
  const rows = cellsOf(world).flatMap(({ analyte, specimen, cases }) =>
    (["B", "O", "T"] as const).map((site) =>
      countsRow(
        { site, analyte, specimen },
        cases.filter((one) => one.site === site),
      ),
    ),
  );
  const table = { name: "counts", columns: Object.keys(rows[0] ?? {}), rows };
  return [
    { name: "study.yaml", text: countsStudyText(COUNTS_SEED, ["B", "O", "T"]) },
    { name: "kit.yaml", text: demoKitText() },
    { name: "counts.csv", text: csvText(table) },
  ];
}

function countsRow(place: Row, cases: readonly Case[]): Row {
  const counts = fourfold(cases, byReference);
  const invalid = cases.filter(({ result }) => result === "invalid");
  const among = (status: "positive" | "negative") =>
    String(invalid.filter(({ reference }) => reference === status).length);
  return {
    ...place,
    reactive_positive: String(counts.truePositives),
    reactive_negative: String(counts.falsePositives),
    nonreactive_positive: String(counts.falseNegatives),
    nonreactive_negative: String(counts.trueNegatives),
    invalid_positive: among("positive"),
    invalid_negative: among("negative"),
  };
}

const PARTLY_VERIFIED_SEED = 20260404;
const PARTLY_VERIFIED_PLAN: Plan = {
  ...NOTHING_PLANTED,
  sizes: { B: 400, O: 0, T: 0, K: 350, L: 250 },
  pending: 0,
  lost: 0,
};
/** Of the nonreactive people of each clinic, the share sent to the laboratory. */
const SENT: Readonly<Record<string, number>> = { B: 0.1, K: 0.3, L: 0.6 };

/** A study of the same invented world in which the kit's result decided who got the reference test. */
export function makePartlyVerified(): DemoFile[] {
  const seed = PARTLY_VERIFIED_SEED;
  const world = simulate({ seed, plan: PARTLY_VERIFIED_PLAN });
  const cell = cellsOf(world).find(
    ({ analyte, specimen }) => analyte === "anti_hcv" && specimen === "venous_whole_blood",
  );
  const draws = drawsOf(seed, "sent to the laboratory");
  const rows = (cell?.cases ?? []).map((one, index): Row => {
    const sent = draws.chance(one.result === "nonreactive" ? (SENT[one.site] ?? 0) : 1);
    return {
      person: `P${String(index + 1).padStart(4, "0")}`,
      site: one.site,
      kit: one.result === "not_done" ? "" : one.result,
      laboratory: sent && one.reference !== "not_done" ? one.reference : "",
    };
  });
  const table = { name: "results", columns: Object.keys(rows[0] ?? {}), rows };
  return [
    { name: "study.yaml", text: partlyVerifiedStudyText(seed, ["B", "K", "L"]) },
    { name: "kit.yaml", text: demoKitText() },
    { name: "results.csv", text: csvText(table) },
  ];
}
