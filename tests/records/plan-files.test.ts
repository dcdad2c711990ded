import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse, stringify } from "yaml";
import type { RowIssue } from "../../src/records/model.ts";
import { neededFiles, parseKit, parseStudy, readStudy } from "../../src/records/read-study.ts";
import { buildStudy, kitPlan, studyPlan, textFile } from "./build-study.ts";
import { accounts, SOUND_PEOPLE } from "./expect-records.ts";

type Plan = Record<string, unknown>;

function studyIssues(change: Plan): readonly RowIssue[] {
  return parseStudy(textFile("study.yaml", stringify({ ...studyPlan(), ...change }))).issues;
}

/** Issues of a folder whose study or kit file is changed. */
function folderIssues(study: Plan, kit: Plan = {}): readonly RowIssue[] {
  const read = readStudy(buildStudy({ people: SOUND_PEOPLE, study, kit }));
  return read.ok ? [] : read.issues;
}

const short = (issues: readonly RowIssue[]) => issues.map(({ rule, column }) => [rule, column]);

const analyte = (change: Plan) => [
  { ...(studyPlan().analytes as Plan[])[0], ...change },
  (studyPlan().analytes as Plan[])[1],
];
const withAlgorithm = (algorithm: unknown) =>
  analyte({
    reference: { title: "EIA", role: "reference_standard", discrepancies: "none settled", algorithm },
  });

describe("study file", () => {
  it("is understood, its dates as text", () => {
    const read = parseStudy(textFile("study.yaml", stringify(studyPlan())));
    expect(read.ok && read.value.dates).toEqual({ first: "2026-04-01", last: "2026-04-30" });
    const unquoted = stringify(studyPlan()).replaceAll('"2026-04-01"', "2026-04-01");
    expect(unquoted).toContain("first: 2026-04-01\n");
    expect(parseStudy(textFile("study.yaml", unquoted)).ok).toBe(true);
  });

  it("names every fault at once, with line and field", () => {
    const text = [
      "format: fourfold-study/1",
      "id: s",
      "title: 5",
      "status: ready",
      "kit: /etc/kit.yaml",
      "arms: []",
      "seed: -1",
      "colour: red",
    ].join("\n");
    const read = parseStudy(textFile("study.yaml", text));
    expect(read.ok).toBe(false);
    const found = new Map(read.issues.map((issue) => [issue.column, [issue.row, issue.expected]]));
    expect(found.get("title")).toEqual([3, "text (put it in quotes)"]);
    expect(found.get("status")).toEqual([4, '"draft" or "locked"']);
    expect(found.get("kit")).toEqual([5, "a file inside the study folder"]);
    expect(found.get("arms")).toEqual([6, "at least one arm"]);
    expect(found.get("seed")?.[0]).toBe(7);
    expect(found.get("colour")).toEqual([8, "no such field"]);
    expect(found.get("analytes")?.[1]).toContain("the field is missing");
  });

  it("suggests the name that was probably meant, at any depth", () => {
    const issues = studyIssues({
      treatmnt: 1,
      interval: { method: "wilson", levl: 0.95, level: 0.95 },
      analytes: analyte({ titel: "x" }),
    });
    const expected = issues.map((issue) => [issue.column, issue.expected]);
    expect(expected).toContainEqual(["treatmnt", 'no such field; did you mean "treatment"?']);
    expect(expected).toContainEqual(["interval.levl", 'no such field; did you mean "level"?']);
    expect(expected).toContainEqual(["analytes.0.titel", 'no such field; did you mean "title"?']);
    expect(issues.every((issue) => issue.rule === "unknown_field" && issue.row !== null)).toBe(true);
  });

  it("refuses what is not YAML, with the line", () => {
    const read = parseStudy(textFile("study.yaml", "format: fourfold-study/1\nid: [1, 2\ntitle: x\n"));
    expect(read).toMatchObject({ ok: false, issues: [{ rule: "yaml_syntax" }] });
    expect(read.issues[0]?.row).toBeGreaterThanOrEqual(2);
    const twice = parseStudy(textFile("study.yaml", "id: a\nid: b\n"));
    expect(twice.issues[0]).toMatchObject({ rule: "yaml_syntax", row: 2 });
    expect(parseStudy(textFile("study.yaml", "")).issues[0]).toMatchObject({ rule: "empty_file" });
    expect(parseStudy({ name: "study.yaml", bytes: Uint8Array.of(0x61, 0xff) }).issues[0]).toMatchObject({
      rule: "not_utf8",
    });
  });

  it("does not unfold an alias bomb", () => {
    const levels = Array.from({ length: 12 }, (_, index) => {
      const inner = index === 0 ? '"x"' : `*a${index - 1}`;
      return `a${index}: &a${index} [${Array(9).fill(inner).join(", ")}]`;
    });
    const read = parseStudy(textFile("study.yaml", levels.join("\n")));
    expect(read).toMatchObject({ ok: false, issues: [{ rule: "yaml_syntax" }] });
  });

  it("lists the files it needs", () => {
    const read = parseStudy(textFile("study.yaml", stringify(studyPlan())));
    expect(read.ok && neededFiles(read.value)).toEqual([
      "kit.yaml",
      "participants.csv",
      "specimens.csv",
      "index_tests.csv",
      "line_readings.csv",
      "interpretations.csv",
      "reference_tests.csv",
      "lots.csv",
      "operators.csv",
    ]);
  });
});

describe("names between the fields", () => {
  const criterion = { id: "c1", analyte: "A1", measure: "sensitivity", at_least: 0.95, source: "protocol" };
  const stratum = { id: "s", title: "S", column: "sex", planned: true };

  it.each<[string, Plan, [string, string][]]>([
    ["criterion", { criteria: [{ ...criterion, analyte: "A9" }] }, [["unknown_name", "criteria.0.analyte"]]],
    [
      "specimen",
      { criteria: [{ ...criterion, specimen: "urine" }] },
      [["unknown_name", "criteria.0.specimen"]],
    ],
    ["criterion twice", { criteria: [criterion, criterion] }, [["unknown_name", "criteria.1.id"]]],
    ["two bounds", { criteria: [{ ...criterion, at_most: 0.99 }] }, [["wrong_field", "criteria.0"]]],
    [
      "prevalence of an unknown analyte",
      { prevalences: [{ id: "p", title: "P", values: { A1: 0.1, A7: 0.2 } }] },
      [["unknown_name", "prevalences.0.values.A7"]],
    ],
    ["stratum without a table", { strata: [stratum] }, [["unknown_name", "strata.0"]]],
    ["primary reader", { readers: { use: "primary" } }, [["wrong_field", "readers"]]],
    [
      "loop",
      { analytes: withAlgorithm([{ assay: "E", leads_to: { reactive: "E", nonreactive: "negative" } }]) },
      [["reference_loop", "analytes.0.reference.algorithm.0"]],
    ],
    [
      "unknown next assay",
      { analytes: withAlgorithm([{ assay: "EIA", leads_to: { reactive: "EIB", nonreactive: "negative" } }]) },
      [["unknown_name", "analytes.0.reference.algorithm.0.leads_to.reactive"]],
    ],
    [
      "assay that nothing leads to",
      {
        analytes: withAlgorithm([
          { assay: "EIA", leads_to: { reactive: "positive", nonreactive: "negative" } },
          { assay: "NAT", leads_to: { reactive: "positive" } },
        ]),
      },
      [["unknown_name", "analytes.0.reference.algorithm.1.assay"]],
    ],
    ["no algorithm", { analytes: withAlgorithm(undefined) }, [["unknown_name", "analytes.0.reference"]]],
    [
      "no readings",
      { records: { ...(studyPlan().records as Plan), line_readings: undefined } },
      [["unknown_name", "records"]],
    ],
  ])("%s", (_, change, expected) => {
    const issues = studyIssues(change);
    expect(short(issues)).toEqual(expected);
    expect(issues.every((issue) => (issue.row ?? 0) > 0)).toBe(true);
  });

  it("names the very line of a fault", () => {
    const text = stringify({
      ...studyPlan(),
      criteria: [criterion, { ...criterion, id: "c2", analyte: "A12" }],
    });
    const [issue] = parseStudy(textFile("study.yaml", text)).issues;
    expect(text.split("\n")[(issue?.row ?? 0) - 1]).toBe("    analyte: A12");
    expect(issue?.expected).toContain('did you mean "A1"?');
  });

  it("holds the study against its kit", () => {
    const lines = [
      { id: "C", role: "control" },
      { id: "T1", role: "test", analyte: "A1" },
    ];
    expect(short(folderIssues({}, { lines, instrument: undefined }))).toEqual([
      ["unknown_name", "analytes.1.id"],
    ]);
    expect(short(folderIssues({ specimens: [{ type: "urine", title: "Urine" }] }))).toEqual([
      ["unknown_name", "specimens.0.type"],
    ]);
  });

  it("asks for one meaning of each code of a results table", () => {
    const records = {
      shape: "results",
      table: "t.csv",
      columns: {},
      analytes: [{ analyte: "A1", rapid: "r", reference: "ref" }],
      codes: {
        rapid: { reactive: ["1", "pos"], nonreactive: ["0", "POS "] },
        reference: { positive: ["1"], negative: ["0"] },
      },
    };
    expect(short(studyIssues({ records }))).toEqual([
      ["unknown_name", "records.analytes"],
      ["unknown_name", "records.codes.rapid.nonreactive.1"],
    ]);
  });
});

describe("kit file", () => {
  const kitIssues = (change: Plan) =>
    parseKit(textFile("kit.yaml", stringify({ ...kitPlan(), ...change }))).issues;

  it("needs one control line, a cut-off for every line, and a window that goes forward", () => {
    expect(
      short(kitIssues({ lines: [{ id: "T1", role: "test", analyte: "A1" }], instrument: undefined })),
    ).toEqual([["wrong_field", null]]);
    const cutoffs = { T1: 1, T2: 1, T3: 1 };
    expect(short(kitIssues({ instrument: { title: "R", unit: "u", cutoffs } }))).toEqual([
      ["unknown_name", "instrument.cutoffs.T3"],
      ["unknown_name", "instrument.cutoffs"],
    ]);
    expect(short(kitIssues({ reading_window: { from_minutes: 20, to_minutes: 15 } }))).toEqual([
      ["wrong_field", "reading_window"],
    ]);
  });
});

describe("a test without lines", () => {
  const bare = { lines: undefined, timed_from: undefined, reading_window: undefined, faint_line: undefined };

  it("may leave out lines and window, all or none", () => {
    const kit = { ...kitPlan(), ...bare, instrument: undefined };
    expect(parseKit(textFile("kit.yaml", stringify(kit))).ok).toBe(true);
    const halfway = parseKit(textFile("kit.yaml", stringify({ ...kitPlan(), reading_window: undefined })));
    expect(halfway.ok).toBe(false);
    expect(halfway.issues[0]?.expected).toBe("timed_from, reading_window and faint_line beside lines");
  });

  it("can't be the kit of line-level records", () => {
    const issues = folderIssues({}, { ...bare, instrument: undefined });
    expect(short(issues)).toEqual([["unknown_name", "kit"]]);
  });
});

describe("whatever the bytes", () => {
  const files = buildStudy({ people: SOUND_PEOPLE });
  const piece = fc.oneof(
    fc.uint8Array({ maxLength: 60 }),
    fc.string({ unit: "binary", maxLength: 60 }).map((text) => new TextEncoder().encode(text)),
    fc
      .constantFrom("\n", ",", '"', "\r\n", ";", ": ", "- ", "{", "&a", "*a")
      .map((text) => new TextEncoder().encode(text)),
  );

  it("reading never throws", () => {
    fc.assert(
      fc.property(fc.nat(files.length - 1), fc.nat(400), piece, (which, at, bytes) => {
        const damaged = files.map((file, index) => {
          if (index !== which) return file;
          const cut = Math.min(at, file.bytes.length);
          return {
            name: file.name,
            bytes: Uint8Array.of(...file.bytes.slice(0, cut), ...bytes, ...file.bytes.slice(cut)),
          };
        });
        const read = readStudy(damaged);
        if (read.ok) expect(accounts(read.records)).toEqual({ rows: true, people: true });
        else expect(read.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe("a folder that cannot be read", () => {
  const files = buildStudy({ people: SOUND_PEOPLE });
  const without = (name: string) => readStudy(files.filter((file) => file.name !== name));

  it.each(["study.yaml", "kit.yaml", "participants.csv", "reference_tests.csv"])("lacks %s", (name) => {
    const read = without(name);
    const missing = read.ok ? [] : read.issues.filter((issue) => issue.rule === "missing_file");
    expect(missing).toMatchObject([{ file: name, row: null, received: "no such file" }]);
  });

  it("says so of every file at once", () => {
    const damaged = files.map((file) => {
      if (file.name === "specimens.csv") return textFile(file.name, "");
      if (file.name === "index_tests.csv") return textFile(file.name, "cassette_id\nX\n");
      return file;
    });
    const read = readStudy(damaged);
    expect(read).toMatchObject({
      ok: false,
      issues: [
        { rule: "empty_file", file: "specimens.csv" },
        { rule: "missing_column", file: "index_tests.csv", column: "specimen_id" },
        { rule: "no_rows", file: "interpretations.csv" },
      ],
    });
  });

  it("reads on where an optional table is missing or empty", () => {
    const read = without("lots.csv");
    expect(read.ok && read.records.issues.map((issue) => issue.rule)).toContain("missing_file");
  });

  it("does not mind a folder prefix or other files", () => {
    const study = parse(new TextDecoder().decode(files[0]?.bytes)) as Plan;
    const records = { ...(study.records as Plan), participants: "./participants.csv" };
    const again = [
      textFile("study.yaml", stringify({ ...study, records })),
      ...files.slice(1),
      textFile("x.bin", "\0"),
    ];
    expect(readStudy(again).ok).toBe(true);
  });
});
