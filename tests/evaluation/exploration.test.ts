import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { choicesOf, LOOKED_AT } from "../../src/evaluation/exploration/choices.ts";
import { exploredStudy, plannedStudy } from "../../src/evaluation/exploration/explored-study.ts";
import { subsetGroups } from "../../src/evaluation/exploration/groups.ts";
import { readExplored } from "../../src/evaluation/exploration/read-explored.ts";
import { subsetOf } from "../../src/evaluation/exploration/subset.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { StudyRecords } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { people, setOf, tinyInputs, tinyRecords, tinyStudy } from "./tiny-study.ts";

/** What is tested here is our own design: expected numbers are counted by hand from the tiny study. */
const CRITERION: Study["criteria"][number] = {
  id: "one.se",
  analyte: "one",
  measure: "sensitivity",
  at_least: 0.5,
  rule: "interval",
  importance: "primary",
  source: "made up",
};

const study: Study = {
  ...tinyStudy,
  criteria: [CRITERION],
  prevalences: [{ id: "clinic", title: "Clinic", values: { one: 0.1 } }],
  strata: [
    { id: "age", title: "Age", column: "age", planned: true },
    { id: "sex", title: "Sex", column: "sex", planned: false },
  ],
};

function explored(wanted: Parameters<typeof exploredStudy>[1], records: StudyRecords) {
  const { study: changed, exploration } = exploredStudy(records.study, wanted);
  return evaluate(subsetOf({ ...records, study: changed }, exploration), tinyInputs, exploration);
}

const inGroups = () =>
  tinyRecords(
    [
      setOf([
        ...people(6, { rapid: "reactive", reference: "positive", strata: { age: "young", sex: "f" } }),
        ...people(3, {
          rapid: "reactive",
          reference: "positive",
          site: "south",
          strata: { age: "old", sex: "f" },
        }),
        ...people(1, { rapid: "nonreactive", reference: "positive", strata: { age: "old", sex: "m" } }),
        ...people(8, { rapid: "nonreactive", reference: "negative", strata: { age: "young", sex: "m" } }),
        ...people(2, {
          rapid: "reactive",
          reference: "negative",
          site: "south",
          strata: { age: "old", sex: "m" },
        }),
      ]),
    ],
    { study },
  );

describe("exploredStudy", () => {
  it("says nothing where nothing differs, and gives the study itself", () => {
    expect(exploredStudy(study, [])).toEqual({ study, exploration: null });
    const asPlanned = choicesOf(study).map(({ path, value }) => ({ path, value }));
    expect(exploredStudy(study, asPlanned)).toEqual({ study, exploration: null });
  });

  it.each([
    ["interval.level", 0.9],
    ["interval.method", "wilson"],
    ["criteria.one.se.at_least", 0.8],
    ["prevalences.clinic.values.one", 0.3],
    ["treatment.invalid", "failure"],
    ["treatment.outside_window", "invalid"],
    ["treatment.repeat", "first"],
  ])("changes %s alone, and finds the way back", (path, value) => {
    const found = exploredStudy(study, [{ path, value }]);
    const planned = choicesOf(study).find((choice) => choice.path === path)?.value;
    expect(found.exploration).toEqual({ changes: [{ path, planned, explored: value }] });
    expect(
      choicesOf(found.study).filter((choice, place) => choice.value !== choicesOf(study)[place]?.value),
    ).toHaveLength(1);
    expect(plannedStudy(found.study, found.exploration)).toEqual(study);
  });

  it("passes over what no study file may say, and places that are not there", () => {
    const wanted = [
      { path: "interval.level", value: 2 },
      { path: "interval.method", value: "none such" },
      { path: "criteria.one.se.at_least", value: null },
      { path: "criteria.one.se.at_most", value: 0.5 },
      { path: "criteria.gone.at_least", value: 0.5 },
      { path: "strata.age.shown", value: "perhaps" },
      { path: "subset.site", value: 3 },
    ];
    expect(exploredStudy(study, wanted)).toEqual({ study, exploration: null });
  });

  it("gives a study without programmes one to look at, and takes it away again", () => {
    const bare = { ...study, prevalences: [] };
    const path = `prevalences.${LOOKED_AT}.values.one`;
    const found = exploredStudy(bare, [{ path, value: 0.2 }]);
    expect(found.study.prevalences.map(({ values }) => values)).toEqual([{ one: 0.2 }]);
    expect(found.exploration?.changes).toEqual([{ path, planned: null, explored: 0.2 }]);
    expect(plannedStudy(found.study, found.exploration)).toEqual(bare);
  });
});

describe("evaluate with an exploration", () => {
  it("is of the changed study, and says what was planned", () => {
    const records = inGroups();
    const evaluation = explored(
      [
        { path: "interval.method", value: "wilson" },
        { path: "interval.level", value: 0.9 },
      ],
      records,
    );
    // R 4.2.2: prop.test(9, 10, conf.level = 0.9, correct = FALSE)$conf.int
    expect(evaluation.accuracy[0]?.sensitivity.lower).toBeCloseTo(0.6522813327, 9);
    expect(evaluation.study.interval).toEqual({ method: "wilson", level: 0.9 });
    expect(evaluation.exploration?.changes.map(({ planned }) => planned)).toEqual(["clopper_pearson", 0.95]);
    expect(readEvaluation(JSON.parse(writeEvaluation(evaluation)))).toEqual(evaluation);
  });

  it("a moved threshold changes the verdict", () => {
    const records = inGroups();
    expect(evaluate(records, tinyInputs).answers[0]?.verdict).toBe("met");
    const moved = explored([{ path: "criteria.one.se.at_least", value: 0.95 }], records);
    expect(moved.answers[0]?.verdict).toBe("undecided");
  });

  it("counts some people only, and loses nobody", () => {
    const records = inGroups();
    const { accuracy, flows, exploration } = explored([{ path: "subset.strata.age", value: "old" }], records);
    expect(accuracy[0]?.counts).toEqual({
      truePositives: 3,
      falsePositives: 2,
      falseNegatives: 1,
      trueNegatives: 0,
    });
    expect(flows[0]?.enrolled).toBe(20);
    expect(flows[0]?.before).toEqual([{ reason: "outside_subset", people: 14 }]);
    expect(exploration?.changes).toEqual([{ path: "subset.strata.age", planned: null, explored: "old" }]);
  });

  it("counts those who are in each of several subsets, and nobody where there are none", () => {
    const records = inGroups();
    const both = explored(
      [
        { path: "subset.site", value: "south" },
        { path: "subset.strata.sex", value: "f" },
      ],
      records,
    );
    expect(both.accuracy[0]?.counts.truePositives).toBe(3);
    expect(both.flows[0]?.analysed).toBe(3);
    const nobody = explored([{ path: "subset.selection", value: "enriched" }], records);
    expect(nobody.flows[0]?.analysed).toBe(0);
    expect(nobody.accuracy[0]?.sensitivity.value).toBeNull();
    const otherSpecimen = explored([{ path: "subset.specimen", value: "plasma" }], records);
    expect(otherSpecimen.answers[0]?.verdict).toBe("not_estimable");
  });

  it("leaves strata away, and those alone", () => {
    const records = inGroups();
    const planned = evaluate(records, tinyInputs);
    const { subgroups } = explored([{ path: "strata.sex.shown", value: false }], records);
    expect(planned.subgroups.map(({ stratum }) => stratum)).toEqual(["age", "sex"]);
    expect(subgroups).toEqual(planned.subgroups.slice(0, 1));
  });

  it("without an exploration is as it was: null, and read as null where an older document has none", () => {
    const evaluation = evaluate(inGroups(), tinyInputs);
    expect(evaluation.exploration).toBeNull();
    const { exploration: _none, ...older } = JSON.parse(writeEvaluation(evaluation)) as Record<
      string,
      unknown
    >;
    expect(readEvaluation(older)).toEqual(evaluation);
    expect(writeEvaluation(explored([], inGroups()))).toBe(writeEvaluation(evaluate(inGroups(), tinyInputs)));
  });
});

describe("subsetGroups", () => {
  it("names groups of two or more, in the study file's order", () => {
    expect(subsetGroups(inGroups())).toEqual([
      { path: "subset.site", groups: ["north", "south"] },
      { path: "subset.strata.age", groups: ["old", "young"] },
      { path: "subset.strata.sex", groups: ["f", "m"] },
    ]);
  });
});

describe("readExplored", () => {
  const text = (name: string, content: string) => ({ name, bytes: new TextEncoder().encode(content) });
  const files = [
    text(
      "study.yaml",
      `format: fourfold-study/1
id: twice
title: Read twice
status: draft
kit: kit.yaml
arms: [{ id: all, title: All, selection: consecutive }]
analytes:
  - { id: one, title: One, reference: { title: R, role: reference_standard, discrepancies: none } }
specimens: [{ type: serum, title: Serum }]
readers: { use: primary, primary: recorded }
treatment: { invalid: set_aside, outside_window: keep, repeat: first }
interval: { method: clopper_pearson, level: 0.95 }
seed: 1
records:
  shape: results
  table: results.csv
  columns: { person: who, device: device }
  analytes: [{ analyte: one, rapid: rapid, reference: reference }]
  codes:
    rapid: { reactive: ["+"], nonreactive: ["-"], invalid: ["x"] }
    reference: { positive: ["+"], negative: ["-"] }
`,
    ),
    text(
      "kit.yaml",
      "format: fourfold-kit/1\nid: kit\ntitle: Kit\nspecimens: [{ type: serum }]\nrepeat: { max_attempts: 2 }\nsource: { title: made up }\n",
    ),
    text("results.csv", "who,device,rapid,reference\np1,d1,x,+\np1,d2,+,+\np2,d3,-,-\n"),
  ];

  it("reads the records for the changed study: the repeat rule decides which device counts", () => {
    const planned = readExplored(files, []);
    const last = readExplored(files, [{ path: "treatment.repeat", value: "last" }]);
    if (!planned.ok || !last.ok) throw new Error(JSON.stringify(planned.ok ? last : planned));
    expect(planned.records.sets[0]?.pairs.map(({ rapid }) => rapid)).toEqual(["invalid", "nonreactive"]);
    expect(last.records.sets[0]?.pairs.map(({ rapid }) => rapid)).toEqual(["reactive", "nonreactive"]);
    expect(planned.exploration).toBeNull();
    expect(last.exploration?.changes).toEqual([
      { path: "treatment.repeat", planned: "first", explored: "last" },
    ]);
  });
});
