import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { type PoolText, poolRead, poolText, tableText, withKinds } from "../../evaluation/pool/any-pool.ts";

const TABLE = tableText([
  [10, 1, 2, 30, "a"],
  [20, 2, 3, 40, "b"],
]);

/** What is wrong, its change of the file, the place, a part of what was expected. */
type Fault = [what: string, change: PoolText, column: string | null, expected: string];
const COLUMNS = poolText().columns as PoolText;

const FAULTS: Fault[] = [
  ["another format", { format: "fourfold-pool/2" }, "format", "fourfold-pool/1"],
  ["a mistyped field", { colums: {} }, "colums", 'did you mean "columns"?'],
  ["no source", { source: undefined }, "source", "the field is missing"],
  ["a level of 95", { level: 95 }, "level", "a level above 0.5 and below 1"],
  ["a way out of the folder", { table: "../studies.csv" }, "table", "inside the study folder"],
  [
    "one column twice",
    { columns: { ...COLUMNS, true_negatives: "fn" } },
    "columns.true_negatives",
    "its own",
  ],
  [
    "a column without its meaning",
    { columns: { ...COLUMNS, covariate: "kind" } },
    "columns.covariate",
    "too",
  ],
  ["a meaning without its column", { covariate: "the kind" }, "covariate", "columns.covariate too"],
  [
    "two criteria for one measure",
    { criteria: [0.8, 0.9].map((at_least) => ({ measure: "sensitivity", at_least, source: "x" })) },
    "criteria.1.measure",
    "one criterion for each measure",
  ],
  [
    "a criterion as a percentage",
    { criteria: [{ measure: "sensitivity", at_least: 95, source: "x" }] },
    "criteria.0.at_least",
    "above 0 and below 1",
  ],
  [
    "another measure",
    { criteria: [{ measure: "accuracy", at_least: 0.9, source: "x" }] },
    "criteria.0.measure",
    "sensitivity or specificity",
  ],
];

describe("a pooling file", () => {
  it.each(FAULTS)("%s is a fault with its line and field", (_, change, column, expected) => {
    const { read, issues } = poolRead(poolText(change), TABLE);
    expect(read).toBeNull();
    const found = issues.find((issue) => issue.column === column);
    expect(found?.expected).toContain(expected);
    expect(found?.row).toBeGreaterThan(0);
  });

  it("is refused without its table, or with one that lacks a column", () => {
    expect(poolRead(poolText(), null).issues[0]).toMatchObject({ rule: "missing_file", file: "studies.csv" });
    const { issues } = poolRead(poolText(), TABLE.replace("study,tp", "study,true"));
    expect(issues[0]).toMatchObject({ rule: "missing_column", column: "tp" });
    expect(poolRead(poolText(), TABLE.replace(",kind", ",tp")).issues[0]?.rule).toBe("duplicate_header");
  });
});

describe("the table of studies", () => {
  it("gives counts as they stand, and the level where there is a covariate", () => {
    const without = poolRead(poolText(), TABLE).read;
    expect(without?.studies[1]).toEqual({
      label: "S2",
      level: null,
      truePositives: 20,
      falsePositives: 2,
      falseNegatives: 3,
      trueNegatives: 40,
    });
    const levels = poolRead(withKinds(), TABLE).read?.studies.map(({ level }) => level);
    expect(levels).toEqual(["a", "b"]);
  });

  it("takes a pair of empty cells as nobody of that kind", () => {
    const { read, issues } = poolRead(
      poolText(),
      tableText([
        ["", 1, "", 30],
        [10, "", 2, ""],
      ]),
    );
    expect(issues).toEqual([]);
    expect(read?.studies.map(({ truePositives, falseNegatives }) => [truePositives, falseNegatives])).toEqual(
      [
        [0, 0],
        [10, 2],
      ],
    );
  });

  it("leaves out what can't be used, each row with its reason, and reads on", () => {
    const rows = [
      "study,tp,fp,fn,tn",
      "A,10,1,2,30",
      "A,11,1,2,30",
      ",10,1,2,30",
      "C,10,1,,30",
      "D,,,,",
      "E,-1,1,2,30",
      "F,ten,1,2,30",
      "G,10,1.5,2,30",
      "H,10,1,2",
      "I,10,1,2,30",
    ];
    const { read } = poolRead(poolText(), `${rows.join("\n")}\n`);
    expect(read?.studies.map(({ label }) => label)).toEqual(["A", "I"]);
    expect(read?.leftOut.map(({ study, row, column }) => [study, row, column])).toEqual([
      ["A", 3, "study"],
      [null, 4, "study"],
      ["C", 5, "fn"],
      ["D", 6, "tp"],
      ["E", 7, "tp"],
      ["F", 8, "tp"],
      ["G", 9, "fp"],
      [null, 10, null],
    ]);
    expect(read?.leftOut.map(({ expected }) => expected)).toContain("a name that no study above bears");
  });

  it("without a row to use is refused", () => {
    expect(poolRead(poolText(), "study,tp,fp,fn,tn\nA,,,,\n").read).toBeNull();
  });
});

// Sums by R 4.2.2 over metadat::dat.kearon1998, as data/pool/ORIGIN.md has them.
describe("the published studies of data/pool", () => {
  const folder = resolve(import.meta.dirname, "../../../data/pool");
  const read = (name: string) => readFileSync(`${folder}/${name}`, "utf8");
  const found = poolRead(parse(read("pool.yaml")) as PoolText, read("studies.csv")).read;

  it.each([
    ["symptomatic", 17, [926, 102, 66, 1525]],
    ["asymptomatic", 15, [229, 310, 46, 1295]],
  ] as const)("%s: %i studies, sums as R has them", (kind, count, sums) => {
    const mine = found?.studies.filter(({ level }) => level === kind) ?? [];
    expect(mine).toHaveLength(count);
    const sum = (of: (study: (typeof mine)[number]) => number) =>
      mine.reduce((total, study) => total + of(study), 0);
    expect([
      sum(({ truePositives }) => truePositives),
      sum(({ falseNegatives }) => falseNegatives),
      sum(({ falsePositives }) => falsePositives),
      sum(({ trueNegatives }) => trueNegatives),
    ]).toEqual(sums);
  });

  it("names the two rows without counts", () => {
    expect(found?.leftOut.map(({ study }) => study)).toEqual([
      "Atri et al. 1996, symptomatic",
      "Lensing et al. 1997",
    ]);
  });
});
