import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import { readPlan } from "../../src/records/plan/parse-plan.ts";
import { type PlanText, parsed, planText } from "../evaluation/plan/any-plan.ts";
import { kitPlan, textFile } from "./build-study.ts";

const [CRITERION] = planText().criteria as [PlanText];
const withCriterion = (change: PlanText) => ({ criteria: [{ ...CRITERION, ...change }] });
const twoAnalytes = (first: PlanText = { value: 0.2 }, second: PlanText = { value: 0.1 }) => [
  { id: "A1", title: "One", prevalence: first },
  { id: "A2", title: "Two", prevalence: second },
];
const compared = (change: PlanText) => ({
  comparisons: [
    {
      id: "c",
      title: "Two kits",
      analyte: "A1",
      measure: "sensitivity",
      design: "paired",
      first: { title: "One", expected: 0.95 },
      second: { title: "Other", expected: 0.9 },
      ...change,
    },
  ],
});
const stopped = (change: PlanText) => ({
  stopping: [{ id: "s", design: "two_stage", criterion: "se", unacceptable: 0.8, ...change }],
});
const width = { id: "w", title: "W", analyte: "A1", measure: "sensitivity", expected: 0.9, half_width: 0.05 };

/** Place, what was expected (a part of it), what came. */
type Row = [what: string, change: PlanText, column: string | null, expected: string, received: string];

const FAULTS: Row[] = [
  ["another format", { format: "fourfold-plan/2" }, "format", "fourfold-plan/1", '"fourfold-plan/2"'],
  ["a mistyped field", { powr: 0.8 }, "powr", 'no such field; did you mean "power"?', '"powr"'],
  ["no criterion", { criteria: [] }, "criteria", "at least one criterion", "[]"],
  ["power 1", { power: 1 }, "power", "no number of people makes it certain: write 0.8", "1"],
  ["power 0", withCriterion({ power: 0 }), "criteria.0.power", "above 0 and below 1", "0"],
  [
    "perfection expected",
    withCriterion({ expected: 1 }),
    "criteria.0.expected",
    "write 0.999, say, instead of 1",
    "1",
  ],
  [
    "perfection demanded",
    withCriterion({ at_least: 1 }),
    "criteria.0.at_least",
    "no number of people shows exactly 0 or 1",
    "1",
  ],
  [
    "a percentage",
    withCriterion({ at_least: 95 }),
    "criteria.0.at_least",
    "a figure above 0 and below 1",
    "95",
  ],
  ["two figures", withCriterion({ at_most: 0.9 }), "criteria.0", "either at_least or at_most", "{"],
  ["no figure", withCriterion({ at_least: undefined }), "criteria.0", "either at_least or at_most", "{"],
  [
    "nothing expected",
    withCriterion({ expected: undefined }),
    "criteria.0.expected",
    "the field is missing",
    "nothing",
  ],
  [
    "an unknown analyte",
    withCriterion({ analyte: "A9" }),
    "criteria.0.analyte",
    "an analyte of this file",
    '"A9"',
  ],
  [
    "an unknown specimen",
    withCriterion({ specimen: "serums" }),
    "criteria.0.specimen",
    'a specimen type of this file; did you mean "serum"?',
    '"serums"',
  ],
  [
    "a kit without a kit file",
    withCriterion({ kit: "K" }),
    "criteria.0.kit",
    "this plan names no kit file",
    '"K"',
  ],
  ["a name twice", { criteria: [CRITERION, CRITERION] }, "criteria.1.id", "each name once", '"se"'],
  [
    "a width named as a criterion",
    { widths: [{ ...width, id: "se" }] },
    "widths.0.id",
    "each name once among criteria, widths and comparisons",
    '"se"',
  ],
  [
    "an analyte twice",
    { analytes: [...twoAnalytes(), ...twoAnalytes()] },
    "analytes.2.id",
    "each name once",
    '"A1"',
  ],
  [
    "nobody positive",
    { analytes: [{ id: "A1", title: "One", prevalence: { value: 0 } }] },
    "analytes.0.prevalence.value",
    "a prevalence above 0 and below 1 (where nobody is positive",
    "0",
  ],
  [
    "two kinds of prevalence",
    { analytes: [{ id: "A1", title: "One", prevalence: { value: 0.1, low: 0.1 } }] },
    "analytes.0.prevalence",
    "value; or positive and tested; or a and b; or low and high",
    "{",
  ],
  [
    "half a kind",
    { analytes: [{ id: "A1", title: "One", prevalence: { positive: 3 } }] },
    "analytes.0.prevalence",
    "or positive and tested",
    "{",
  ],
  [
    "more positive than tested",
    { analytes: [{ id: "A1", title: "One", prevalence: { positive: 3, tested: 2 } }] },
    "analytes.0.prevalence",
    "positive not above tested",
    "{",
  ],
  [
    "a range turned round",
    { analytes: [{ id: "A1", title: "One", prevalence: { low: 0.2, high: 0.1 } }] },
    "analytes.0.prevalence",
    "low below high",
    "{",
  ],
  ["all lost", { recruitment: { lost: 1 } }, "recruitment.lost", "from 0 to below 1 (if all were lost", "1"],
  [
    "a site that enrols nobody",
    { recruitment: { sites: [{ id: "S", title: "S", per_day: 0 }] } },
    "recruitment.sites.0.per_day",
    "0.001 to 1,000,000",
    "0",
  ],
  [
    "clusters and their size",
    { alike: { icc: 0.1, clusters: 3, size: 5 } },
    "alike",
    "either clusters or size",
    "{",
  ],
  [
    "a half-width of nothing",
    { widths: [{ ...width, half_width: 0 }] },
    "widths.0.half_width",
    "a half-width above 0 and at most 0.5",
    "0",
  ],
  [
    "a width of an unknown analyte",
    { widths: [{ ...width, analyte: "B" }] },
    "widths.0.analyte",
    "an analyte of this file",
    '"B"',
  ],
  [
    "an impossible discordant share",
    compared({ discordant: 0.04 }),
    "comparisons.0.discordant",
    "0.05 to 0.15, which the two expected values allow",
    "0.04",
  ],
  [
    "a discordant share of different people",
    compared({ design: "unpaired", discordant: 0.1 }),
    "comparisons.0.discordant",
    "each person has only one of the kits",
    "0.1",
  ],
  ["a margin of nothing", compared({ margin: 0 }), "comparisons.0.margin", "above 0 and below 1", "0"],
  [
    "a kit against itself",
    compared({
      first: { title: "One", kit: "K", expected: 0.9 },
      second: { title: "Other", kit: "K", expected: 0.9 },
    }),
    "comparisons.0.second.kit",
    "another kit than the first side's",
    '"K"',
  ],
  [
    "a comparison of an unknown analyte",
    compared({ analyte: "A2" }),
    "comparisons.0.analyte",
    'an analyte of this file; did you mean "A1"?',
    '"A2"',
  ],
  [
    "looks for an unknown criterion",
    stopped({ criterion: "sp" }),
    "stopping.0.criterion",
    'a criterion of this file; did you mean "se"?',
    '"sp"',
  ],
  [
    "nothing to tell apart",
    stopped({ unacceptable: 0.95 }),
    "stopping.0.unacceptable",
    "less than what is expected of the kit, 0.95",
    "0.95",
  ],
  [
    "looks for a share that must be low",
    {
      criteria: [
        { ...CRITERION, measure: "invalid_rate", at_least: undefined, at_most: 0.1, expected: 0.02 },
      ],
      ...stopped({}),
    },
    "stopping.0.criterion",
    "a criterion that demands at_least",
    '"se"',
  ],
  [
    "looks that go back",
    stopped({ design: "group_sequential", looks: [0.6, 0.5, 1] }),
    "stopping.0.looks",
    "increasing, the last being 1",
    "[0.6,0.5,1]",
  ],
  [
    "more than two stages can be searched for",
    stopped({ largest: 301 }),
    "stopping.0.largest",
    "at most 300",
    "301",
  ],
  [
    "an unknown criterion in what_if",
    { what_if: [{ criterion: "x" }] },
    "what_if.0.criterion",
    "a criterion of this file",
    '"x"',
  ],
  [
    "prevalences of invalid results",
    {
      criteria: [
        { ...CRITERION, measure: "invalid_rate", at_least: undefined, at_most: 0.1, expected: 0.02 },
      ],
      what_if: [{ criterion: "se", prevalences: [0.1] }],
    },
    "what_if.0.prevalences",
    "invalid results are counted among everybody tested",
    "[0.1]",
  ],
  [
    "an unknown criterion in the order",
    { decision: { control: "fixed_sequence", order: ["sp"] } },
    "decision.order.0",
    "a criterion of this file",
    '"sp"',
  ],
  ["one analyte together", { together: { correlation: 0 } }, "together", "the plan has one analyte", "{"],
  [
    "more with both than with one",
    { analytes: twoAnalytes(), together: { correlation: 0, both_positive: 0.15 } },
    "together.both_positive",
    "0 to 0.1, which the two prevalences allow",
    "0.15",
  ],
];

describe("faults of a plan", () => {
  it.each(FAULTS)("%s: place, what was expected, what came", (_, change, column, expected, received) => {
    const read = parsed(JSON.parse(JSON.stringify(planText(change))) as PlanText);
    expect(read.ok).toBe(false);
    const issue = read.issues[0];
    expect(issue).toMatchObject({ file: "plan.yaml", severity: "error", column });
    expect(issue?.row).toBeGreaterThan(0);
    expect(issue?.expected).toContain(expected);
    expect(issue?.received).toContain(received);
  });

  it("come all at once", () => {
    const read = parsed(planText({ power: 1, ...withCriterion({ expected: 1, analyte: 3 }) }));
    expect(read.issues.map(({ column }) => column)).toEqual([
      "criteria.0.analyte",
      "criteria.0.expected",
      "power",
    ]);
  });

  it("a correlation that the expected values don't allow names the range", () => {
    // Of two events with probability 0.95 each the least correlation is (0.9 - 0.9025) / 0.0475.
    const criteria = [CRITERION, { ...CRITERION, id: "se2", analyte: "A2" }];
    const read = parsed(planText({ analytes: twoAnalytes(), criteria, together: { correlation: -0.2 } }));
    expect(read.issues[0]).toMatchObject({ column: "together.correlation", received: "-0.2" });
    expect(read.issues[0]?.expected).toContain("-0.052632 to 1,");
  });

  it("what is possible and can't be reached is no fault", () => {
    expect(parsed(planText(withCriterion({ expected: 0.7 }))).ok).toBe(true);
    expect(parsed(planText({ alike: { icc: 1, clusters: 1 } })).ok).toBe(true);
  });
});

describe("a plan with a kit file", () => {
  const plan = (change: PlanText = {}) =>
    textFile("plan.yaml", stringify(planText({ kit: "kit.yaml", ...change })));
  const kit = textFile("kit.yaml", stringify(kitPlan()));

  it("reads both", () => {
    const read = readPlan(plan({ specimens: [{ type: "venous", title: "Venous blood" }] }), kit);
    expect(read.ok && read.value.kit?.id).toBe("kit-x");
  });

  it("misses the kit file", () => {
    expect(readPlan(plan(), null).issues).toMatchObject([{ rule: "missing_file", file: "kit.yaml" }]);
  });

  it("holds names against the kit", () => {
    const [criterion] = withCriterion({ analyte: "B1", kit: "kit-y" }).criteria;
    const analytes = [{ id: "B1", title: "One", prevalence: { value: 0.1 } }];
    const read = readPlan(plan({ analytes, criteria: [criterion] }), kit);
    expect(read.issues.map(({ column }) => column)).toEqual([
      "analytes.0.id",
      "specimens.0.type",
      "criteria.0.kit",
    ]);
  });

  it("passes on the faults of the kit file", () => {
    const broken = textFile("kit.yaml", stringify({ ...kitPlan(), faint_line: "maybe" }));
    expect(readPlan(plan(), broken).issues).toMatchObject([{ file: "kit.yaml", column: "faint_line" }]);
  });
});
