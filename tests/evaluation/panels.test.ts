import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Panel } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { PanelRow } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { expectClose } from "../tolerance.ts";
import { setOf, tinyInputs, tinyRecords, twentyPeople } from "./tiny-study.ts";

type Planned = Study["panels"][number];

const PLANNED: Planned = {
  id: "p",
  title: "Panel",
  analyte: "one",
  table: "panel.csv",
  columns: { concentration: "iu", tested: "n", reactive: "r" },
  unit: "IU/mL",
  chance: 0.95,
  lack_of_fit: "ignore",
};

type Row = readonly [concentration: number, tested: number, reactive: number, lot?: string];
const rowsOf = (rows: readonly Row[]): PanelRow[] =>
  rows.map(([concentration, tested, reactive, lot = null], at) => ({
    line: at + 2,
    lot,
    concentration,
    tested,
    reactive,
  }));

function evaluated(rows: readonly Row[], change: Partial<Planned> = {}) {
  const records = tinyRecords([setOf(twentyPeople())], {
    study: { panels: [{ ...PLANNED, ...change }] },
    panels: [{ id: "p", rows: rowsOf(rows) }],
  });
  return { records, document: evaluate(records, tinyInputs) };
}

function only({ document }: ReturnType<typeof evaluated>): Panel {
  const [panel] = document.panels;
  if (panel === undefined) throw new Error("no panel");
  return panel;
}

/** R 4.2.2: glm(cbind(reactive, rest) ~ log10(concentration)) and Finney's limits; see tests/reference/README.md. */
const [opinion] = (
  JSON.parse(
    readFileSync(new URL("../reference/second-opinion-detection-calibration.json", import.meta.url), "utf8"),
  ) as {
    detection: readonly {
      concentration: number[];
      reactive: number[];
      tested: number[];
      probabilities: number[];
      limits: number[];
    }[];
  }
).detection;
if (opinion === undefined) throw new Error("no second opinion");
const DILUTIONS = opinion.concentration.map(
  (at, place): Row => [at, opinion.tested[place] ?? 0, opinion.reactive[place] ?? 0],
);

describe("a dilution panel", () => {
  const found = evaluated([[0, 20, 1], ...DILUTIONS, [0, 10, 0]]);
  const panel = only(found);

  it("finds the concentration that R finds, with Finney's limits", () => {
    const limits = panel.values?.probit.concentrations.find(({ probability }) => probability === 0.95);
    const place = 3 * opinion.probabilities.indexOf(0.95);
    const [value, lower, upper] = opinion.limits.slice(place, place + 3).map((log10) => 10 ** log10);
    expectClose(limits?.concentration.value, value as number, { relative: 1e-6 });
    expectClose(limits?.concentration.lower, lower as number, { relative: 1e-6 });
    expectClose(limits?.concentration.upper, upper as number, { relative: 1e-6 });
    expect(found.document.warnings).toEqual([]);
  });

  it("adds blanks up, apart from what is fitted, and counts every row", () => {
    expect(panel).toMatchObject({
      kit: "made-up-kit",
      rows: { used: 6, blanks: 2 },
      devices: { tested: 120, reactive: 69 },
      values: { blank: { count: 1, total: 30 } },
      lots: [],
    });
    expect(panel.notes).toContainEqual(expect.objectContaining({ code: "background", path: "values.blank" }));
  });

  it("tells the chance that the study file asks for, besides 0.05 and 0.5", () => {
    const chances = (chance: number) =>
      only(evaluated(DILUTIONS, { chance })).values?.logit.concentrations.map(
        ({ probability }) => probability,
      );
    expect(chances(0.99)).toEqual([0.05, 0.5, 0.99]);
    expect(chances(0.5)).toEqual([0.05, 0.5]);
  });

  it("fits each lot by itself where there are several, rows without a lot among themselves", () => {
    const lots = only(
      evaluated([...DILUTIONS.map(([at, n, r]): Row => [at, n, r, "B"]), [10, 20, 5], [40, 20, 12]]),
    ).lots;
    expect(lots.map(({ lot, values }) => [lot, values.rows.length])).toEqual([
      ["B", 6],
      ["not_recorded", 2],
    ]);
    expect(lots[0]?.values.probit).toEqual(only(evaluated(DILUTIONS)).values?.probit);
    const single = DILUTIONS.map(([at, n, r]): Row => [at, n, r, "B"]);
    expect(only(evaluated(single)).lots).toEqual([]);
  });

  it("writes tables and reads itself back", () => {
    const { records, document } = found;
    expect(readEvaluation(JSON.parse(writeEvaluation(document)))).toEqual(document);
    const tables = evaluationTables(document, records).filter(({ name }) =>
      ["detection_limits", "dilutions"].includes(name),
    );
    expect(tables.map(({ rows }) => rows.length)).toEqual([6, 7]);
    for (const { columns, rows } of tables)
      expect(rows.every((row) => row.length === columns.length)).toBe(true);
  });
});

describe("a panel that can't tell", () => {
  it.each<[string, readonly Row[], string]>([
    [
      "all reactive",
      [
        [1, 10, 10],
        [2, 10, 10],
      ],
      "all_alike",
    ],
    [
      "a step without overlap",
      [
        [1, 10, 0],
        [2, 10, 0],
        [4, 10, 10],
      ],
      "separated",
    ],
    ["one concentration", [[1, 10, 4]], "one_value"],
    [
      "no slope to be seen",
      [
        [1, 10, 4],
        [2, 10, 5],
        [4, 10, 5],
      ],
      "slope_unclear",
    ],
    ["blanks alone", [[0, 10, 0]], "no_observations"],
  ])("says why, and warns: %s", (_, rows, reason) => {
    const { document } = evaluated(rows);
    expect(document.warnings).toEqual([{ code: "no_detection_limit", subject: "p", facts: { reason } }]);
  });

  it("has more rows than a fit takes", () => {
    const many = Array.from({ length: 501 }, (_, at): Row => [1 + at, 1, at % 2]);
    const panel = only(evaluated(many));
    expect(panel.values).toBeNull();
    expect(panel.notes).toMatchObject([{ code: "too_many_rows", path: "values" }]);
  });
});
