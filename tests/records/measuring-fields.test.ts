import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import type { RowIssue } from "../../src/records/model.ts";
import { neededFiles, parseStudy, readStudy } from "../../src/records/read-study.ts";
import { buildStudy, type PersonPlan, studyPlan, textFile } from "./build-study.ts";
import { accounts, places, recordsOf, SOUND_PEOPLE } from "./expect-records.ts";

type Fields = Record<string, unknown>;

const strata = ["site_id", "arm_id"].map((column) => ({
  id: column.slice(0, -3),
  title: column,
  table: "participants",
  column,
  planned: true,
}));

const inFile = ({ file }: RowIssue) => file === "study.yaml";
const brief = (issues: readonly RowIssue[]): [string | null, string][] =>
  issues
    .filter((issue) => inFile(issue) && issue.severity === "error")
    .map(({ column, expected }) => [column, expected]);

/** Faults of a folder of line-level records, whose study file also says `study`. */
function faults(study: Fields, kit: Fields = {}): [string | null, string][] {
  const read = readStudy([...buildStudy({ people: SOUND_PEOPLE, study, kit }), PANEL_FILE]);
  return brief(read.ok ? read.records.issues : read.issues);
}

const INSTRUMENT = { reader: "OR", unit: "units", direction: "higher" };
const PANEL = {
  id: "p",
  title: "Panel",
  analyte: "A1",
  table: "panel.csv",
  columns: { concentration: "iu", tested: "n", reactive: "r" },
  unit: "IU",
  chance: 0.95,
  lack_of_fit: "ignore",
};
const PANEL_FILE = textFile("panel.csv", "iu,n,r,lot\n0,10,0,a\n1,10,2,a\n2,10,7,b\n");

describe("groups to be pooled", () => {
  it("are those of a stratum, with another that tells them apart", () => {
    expect(faults({ strata, pooling: { by: "site", covariate: "arm" } })).toEqual([]);
    expect(faults({ strata, pooling: { by: "sites" } })).toEqual([
      ["pooling.by", 'a stratum of this file; did you mean "site"?'],
    ]);
    expect(faults({ strata, pooling: { by: "site", covariate: "site" } })).toEqual([
      ["pooling.covariate", "another stratum than by"],
    ]);
    expect(faults({ strata, pooling: { covariate: "arm" } })[0]?.[0]).toBe("pooling.by");
  });
});

describe("instruments", () => {
  it("name unit and direction: neither is silently supposed", () => {
    expect(faults({ instruments: [INSTRUMENT] })).toEqual([]);
    expect(faults({ instruments: [{ reader: "OR" }] }).map(([column]) => column)).toEqual([
      "instruments.0.unit",
      "instruments.0.direction",
    ]);
  });

  it.each<[string, Fields, [string, string]]>([
    ["no reader", { reader: undefined }, ["instruments.0", "the reader that is the instrument"]],
    ["lower", { direction: "lower" }, ["instruments.0.direction", "higher: a line has more intensity"]],
    [
      "cutoffs of its own",
      { cutoffs: { A1: 3 }, source: "made up" },
      ["instruments.0.cutoffs", "no cutoffs: with line-level records the kit file states them, line by line"],
    ],
    ["cutoffs without source", { cutoffs: { A1: 3 } }, ["instruments.0", "a source beside the cutoffs"]],
    ["another kit", { kit: "kit-z" }, ["instruments.0.kit", "a kit of this study"]],
  ])("of lines: %s", (_, change, expected) => {
    const [column, words] = faults({ instruments: [{ ...INSTRUMENT, ...change }] })[0] ?? [];
    expect(column).toBe(expected[0]);
    expect(words).toContain(expected[1]);
  });

  it("of lines have cutoffs in the kit file, and stand once for each reader and kit", () => {
    expect(faults({ instruments: [INSTRUMENT] }, { instrument: undefined })).toEqual([
      ["instruments.0", "a kit file with an instrument and its cutoffs"],
    ]);
    expect(faults({ instruments: [INSTRUMENT, { ...INSTRUMENT, kit: "kit-x" }] })).toEqual([
      ["instruments.1", "one instrument for each reader and kit"],
    ]);
  });

  it.each<[unknown, boolean]>([
    ["youden", true],
    [{ specificity_at_least: 0.98 }, true],
    [{ sensitivity_at_least: 0.95 }, true],
    [{ cost_of_false_positive: 1, cost_of_false_negative: 5, prevalence: 0.05 }, true],
    [{ cost_of_false_positive: 1, cost_of_false_negative: 5 }, false],
    [{ cost_of_false_positive: 0, cost_of_false_negative: 5, prevalence: 0.05 }, false],
    [{ specificity_at_least: 1.2 }, false],
    [{ specificity_at_least: 0.9, sensitivity_at_least: 0.9 }, false],
    ["best", false],
  ])("choose a cutoff by a named rule: %j", (choose, sound) => {
    const found = faults({ instruments: [{ ...INSTRUMENT, choose }] });
    expect(found.length === 0).toBe(sound);
    if (!sound) expect(found[0]?.[0]).toMatch(/^instruments\.0\.choose/);
  });

  const ORS: readonly PersonPlan[] = [
    {
      id: "P1",
      reference: { A1: "positive", A2: "negative" },
      devices: [
        {
          id: "D1",
          readings: [
            { lines: ["clear", "faint", "absent"] },
            { reader: "OR", lines: [90, 44.5, 3], row: { method: "optical" } },
          ],
        },
      ],
    },
    {
      id: "P2",
      reference: { A1: "negative", A2: "negative" },
      devices: [{ id: "D2", readings: [{ lines: ["clear", "absent", "absent"] }] }],
    },
  ];

  it("bring the readings of the device that counts beside each person", () => {
    const files = buildStudy({ people: ORS, study: { instruments: [INSTRUMENT] } });
    const { sets, issues } = recordsOf(files);
    const of = (reader: string) => sets.find((set) => set.reader === reader && set.analyte === "A1");
    expect(of("OR")?.method).toBe("optical");
    expect(of("OR")?.pairs.map(({ person, measured }) => [person, measured])).toEqual([
      ["P1", { device: "D1", intensity: 44.5 }],
      ["P2", { device: null, intensity: null }],
    ]);
    expect(of("R1")?.pairs.map(({ measured }) => measured?.device)).toEqual(["D1", "D2"]);
    expect(issues.filter(inFile)).toEqual([]);
  });

  it("of whom there is no number are spoken of; without any, pairs carry nothing more", () => {
    const files = (study: Fields) => recordsOf(buildStudy({ people: SOUND_PEOPLE, study }));
    expect(places(files({ instruments: [INSTRUMENT] }).issues)).toContainEqual([
      "reader_without_readings",
      "study.yaml",
      expect.any(Number),
    ]);
    const plain = files({}).sets.flatMap((set) => set.pairs);
    expect(plain.some((pair) => "measured" in pair)).toBe(false);
  });
});

const RESULTS: Fields = {
  shape: "results",
  table: "results.csv",
  columns: { person: "who", device: "device" },
  analytes: [{ analyte: "A1", rapid: "kit", reference: "lab", value: "number" }],
  codes: {
    rapid: { reactive: ["+"], nonreactive: ["-"], invalid: ["inv"] },
    reference: { positive: ["+"], negative: ["-"] },
  },
};

function resultFiles(records: Fields, change: Fields, table: string) {
  const [analyte] = studyPlan().analytes as Fields[];
  const study = {
    ...studyPlan(),
    analytes: [
      { ...analyte, reference: { title: "EIA", role: "reference_standard", discrepancies: "none" } },
    ],
    specimens: [{ type: "venous", title: "Venous" }],
    ...change,
    records: { ...RESULTS, ...records },
  };
  const kit = buildStudy({ people: SOUND_PEOPLE }).find(({ name }) => name === "kit.yaml");
  if (kit === undefined) throw new Error("no kit file");
  return [textFile("study.yaml", stringify(study)), kit, textFile("results.csv", table)];
}

const NUMBERS = { instruments: [{ unit: "ratio", direction: "lower" }] };
const TABLE = "who,device,kit,lab,number\n";

describe("numbers in result-level records", () => {
  const alone = (records: Fields, change: Fields) => {
    const [file] = resultFiles(records, change, TABLE);
    return brief(file === undefined ? [] : parseStudy(file).issues);
  };

  it("need an instrument that says what they are, and an instrument needs them", () => {
    expect(alone({}, {})).toEqual([
      ["records.analytes.0.value", "instruments in this file, which say what the number is"],
    ]);
    const without = { analytes: [{ analyte: "A1", rapid: "kit", reference: "lab" }] };
    expect(alone(without, NUMBERS)).toEqual([
      ["instruments.0", "a value column in records.analytes for what it measures"],
    ]);
  });

  it("that are probabilities speak for the condition where they are high", () => {
    const analytes = [{ analyte: "A1", rapid: "kit", reference: "lab", value: "number", probability: true }];
    expect(alone({ analytes }, NUMBERS)).toEqual([
      ["records.analytes.0.probability", "no probability where lower readings speak for the condition"],
    ]);
    expect(alone({ analytes }, { instruments: [{ unit: "chance", direction: "higher" }] })).toEqual([]);
  });

  it("are of the reader who is the instrument, where the records name readers", () => {
    const reader = { instruments: [{ unit: "ratio", direction: "higher", reader: "OR" }] };
    expect(alone({}, reader)).toEqual([["instruments.0.reader", "no reader: these records name none"]]);
    const columns = { person: "who", reader: "by" };
    expect(alone({ columns }, NUMBERS)).toEqual([
      ["instruments.0", "the reader that is the instrument, as the records name readers"],
    ]);
    expect(alone({ columns }, reader)).toEqual([]);
  });

  it("stand beside the result of the attempt that counts; what is no number is not used", () => {
    const rows = ["p1,d1,inv,+,7", "p1,d2,+,+,1.5", "p2,d3,-,-,x", "p3,d4,-,-,", "p4,d5,,-,9"];
    const records = recordsOf(resultFiles({}, NUMBERS, `${TABLE}${rows.join("\n")}\n`));
    expect(records.sets[0]?.pairs.map(({ person, measured }) => [person, measured])).toEqual([
      ["p1", { device: "d2", intensity: 1.5 }],
      ["p2", { device: "d3", intensity: null }],
      ["p3", { device: "d4", intensity: null }],
      ["p4", { device: null, intensity: null }],
    ]);
    expect(places(records.issues)).toContainEqual(["not_a_number", "results", 4]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("outside 0 to 1 are no probabilities", () => {
    const analytes = [{ analyte: "A1", rapid: "kit", reference: "lab", value: "number", probability: true }];
    const higher = { instruments: [{ unit: "chance", direction: "higher" }] };
    const table = `${TABLE}p1,d1,+,+,1\np2,d2,+,-,1.01\np3,d3,-,-,-0.2\n`;
    const records = recordsOf(resultFiles({ analytes }, higher, table));
    expect(records.sets[0]?.pairs.map(({ measured }) => measured?.intensity)).toEqual([1, null, null]);
    expect(places(records.issues).filter(([rule]) => rule === "out_of_range")).toHaveLength(2);
  });

  it("counts hold none", () => {
    const records = {
      shape: "counts",
      table: "results.csv",
      columns: { true_positives: "a", false_positives: "b", false_negatives: "c", true_negatives: "d" },
    };
    const study = { ...studyPlan(), ...NUMBERS, specimens: [{ type: "venous", title: "V" }], records };
    const issues = parseStudy(textFile("study.yaml", stringify(study))).issues;
    expect(brief(issues)).toContainEqual(["instruments.0", "no instrument: counts hold no readings"]);
  });
});

describe("dilution panels", () => {
  const panelsOf = (table: string, change: Fields = {}) =>
    recordsOf([
      ...buildStudy({ people: SOUND_PEOPLE, study: { panels: [{ ...PANEL, ...change }] } }),
      textFile("panel.csv", table),
    ]);

  it("name chance and what lack of fit does, an analyte and a kit that shows it, and a table of their own", () => {
    expect(faults({ panels: [PANEL] })).toEqual([]);
    const { chance: _, lack_of_fit: __, ...bare } = PANEL;
    expect(faults({ panels: [bare] }).map(([column]) => column)).toEqual([
      "panels.0.chance",
      "panels.0.lack_of_fit",
    ]);
    expect(faults({ panels: [{ ...PANEL, analyte: "A3", kit: "kit-z" }] }).map(([column]) => column)).toEqual(
      ["panels.0.analyte"],
    );
    expect(faults({ panels: [{ ...PANEL, kit: "kit-z" }] }).map(([column]) => column)).toEqual([
      "panels.0.kit",
    ]);
    expect(faults({ panels: [PANEL, PANEL] })).toEqual([
      ["panels.1.id", "each name once"],
      ["panels.1.table", "a table of its own"],
    ]);
    expect(faults({ panels: [{ ...PANEL, chance: 1 }] })[0]?.[0]).toBe("panels.0.chance");
    expect(faults({ panels: [{ ...PANEL, table: "../panel.csv" }] })[0]?.[0]).toBe("panels.0.table");
  });

  it("are read row by row, with the file among those that are needed", () => {
    const columns = { ...PANEL.columns, lot: "lot" };
    const { panels, study, ledger } = panelsOf("iu,n,r,lot\n0,10,0,a\n1.5,10,2,\n", { columns });
    expect(panels).toEqual([
      {
        id: "p",
        rows: [
          { line: 2, lot: "a", concentration: 0, tested: 10, reactive: 0 },
          { line: 3, lot: null, concentration: 1.5, tested: 10, reactive: 2 },
        ],
      },
    ]);
    expect(neededFiles(study)).toContain("panel.csv");
    expect(ledger.at(-1)).toEqual({ file: "panel.csv", rows: 2, analysed: 2, setAside: [] });
  });

  it("every row is used or set aside with its reason", () => {
    const faulty = ["x,10,1", "-1,10,1", ",10,1", "1,,1", "1,10,11", "1,2.5,1", "1,-3,0", "1,10,"];
    const records = panelsOf(`iu,n,r\n${[...faulty, "2,10,4"].join("\n")}\n`);
    expect(records.panels[0]?.rows).toEqual([
      { line: 10, lot: null, concentration: 2, tested: 10, reactive: 4 },
    ]);
    expect(records.ledger.at(-1)?.setAside).toEqual([
      { reason: "missing_value", rows: [4, 5, 9] },
      { reason: "not_a_number", rows: [2, 7] },
      { reason: "out_of_range", rows: [3, 6, 8] },
    ]);
    expect(places(records.issues).filter(([, file]) => file === "panel")).toHaveLength(faulty.length);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("without the file, or without a column, the study can't be read", () => {
    const study = { panels: [PANEL] };
    const missing = readStudy(buildStudy({ people: SOUND_PEOPLE, study }));
    expect(missing.ok ? [] : places(missing.issues)).toContainEqual(["missing_file", "panel", null]);
    const column = readStudy([
      ...buildStudy({ people: SOUND_PEOPLE, study }),
      textFile("panel.csv", "iu,n\n1,2\n"),
    ]);
    expect(column.ok ? [] : places(column.issues)).toContainEqual(["missing_column", "panel", 1]);
  });
});
