type Row = Readonly<Record<string, string>>;
type Rows = readonly Row[];
type Rapid = "reactive" | "nonreactive" | "invalid" | "not_done";
type Reference = "positive" | "negative" | "indeterminate" | "not_done";

const RAPID: readonly Rapid[] = ["reactive", "nonreactive", "invalid", "not_done"];
const REFERENCE: readonly Reference[] = ["positive", "negative", "indeterminate", "not_done"];

/**
 * The demo study's cross-tabulation of people, counted from its tables in the plainest way: first
 * visits by their code, the first enrolment of each person key, R1's lines, the reference algorithm
 * written out as conditions. A second opinion on generator and program; uses the code of neither.
 */
export function recount(table: (name: string) => Rows, analyte: string, line: string, specimen: string) {
  const people = firstEnrolments(table("participants.csv"));
  const letter = specimen === "fingerstick" ? "F" : "V";
  const seen = new Map(
    table("line_readings.csv")
      .filter((row) => row.reader_id === "R1")
      .map((row) => [`${row.cassette_id} ${row.line_id}`, row.line_seen as string]),
  );
  const devices = table("index_tests.csv");
  const runs = table("reference_tests.csv").filter((row) => row.analyte_id === analyte);
  const counts = Object.fromEntries(
    RAPID.map((rapid) => [rapid, Object.fromEntries(REFERENCE.map((status) => [status, 0]))]),
  ) as Record<Rapid, Record<Reference, number>>;
  const devicesOf = grouped(devices, (row) => row.specimen_id as string);
  const runsOf = grouped(runs, (row) => row.specimen_id as string);
  for (const person of people) {
    const rapid = rapidOf(devicesOf.get(`${person}-1${letter}`) ?? [], seen, line);
    counts[rapid][referenceOf(runsOf.get(`${person}-1P`) ?? [], analyte)] += 1;
  }
  return counts;
}

function grouped(rows: Rows, key: (row: Row) => string): Map<string, Rows> {
  const groups = new Map<string, Rows>();
  for (const row of rows) groups.set(key(row), [...(groups.get(key(row)) ?? []), row]);
  return groups;
}

function firstEnrolments(participants: Rows): string[] {
  const byDay = [...participants].sort((a, b) =>
    (a.enrolment_date ?? "") < (b.enrolment_date ?? "") ? -1 : 1,
  );
  const keys = new Set<string>();
  return byDay.flatMap(({ participant_id = "", person_key = "" }) => {
    if (keys.has(person_key)) return [];
    keys.add(person_key);
    return [participant_id];
  });
}

function rapidOf(devices: Rows, seen: ReadonlyMap<string, string>, line: string): Rapid {
  const result = (attempt: string): Rapid => {
    const device = devices.find((row) => row.attempt_no === attempt);
    if (device === undefined) return "not_done";
    const control = seen.get(`${device.cassette_id} C`);
    const test = seen.get(`${device.cassette_id} ${line}`);
    if (control !== "clear" || test === "unreadable") return "invalid";
    return test === "absent" ? "nonreactive" : "reactive";
  };
  const first = result("1");
  const second = result("2");
  return first === "invalid" && second !== "not_done" ? second : first;
}

function referenceOf(runs: Rows, analyte: string): Reference {
  const results = (assay: string) =>
    runs.filter((row) => row.assay_id === assay).map((row) => row.ref_result);
  if (analyte === "hbsag") {
    const [screen] = results("H-EIA");
    if (screen === undefined) return "not_done";
    if (screen === "nonreactive" || !results("H-EIA-DUP").includes("reactive")) return "negative";
    const [neutralised] = results("H-NEUT");
    if (neutralised === "failed") return "indeterminate";
    return neutralised === "reactive" ? "positive" : "negative";
  }
  const [screen] = results("C-EIA");
  if (screen === undefined) return "not_done";
  if (screen === "nonreactive") return "negative";
  const [blot] = results("C-BLOT");
  if (blot === "indeterminate") return "indeterminate";
  return blot === "reactive" ? "positive" : "negative";
}
