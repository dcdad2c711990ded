import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { InterpretationCheck } from "../../src/records/model.ts";
import { people, person, setOf, tinyInputs, tinyRecords, tinyStudy, twentyPeople } from "./tiny-study.ts";

const evaluated = (...given: Parameters<typeof tinyRecords>) => evaluate(tinyRecords(...given), tinyInputs);

describe("answers", () => {
  const criterion = {
    id: "se",
    analyte: "one",
    measure: "sensitivity" as const,
    at_least: 0.95,
    rule: "interval" as const,
    importance: "primary" as const,
    source: "made up",
  };

  it("hold each criterion against the data, with its probability", () => {
    const [answer] = evaluated(undefined, { study: { criteria: [criterion] } }).answers;
    expect(answer).toMatchObject({ verdict: "undecided", direction: "at_least", threshold: 0.95 });
    // R 4.2.2: pbeta(.95, 8.5, 1.5, lower.tail = FALSE)
    expect(answer?.probability).toBeCloseTo(0.17382724180458, 10);
    expect(answer?.enteredOn).toBeNull();
  });

  it("tell whether another treatment of invalid results would change the verdict", () => {
    // 95 of 95 valid: Clopper-Pearson lower limit .05/2 ^ (1/95) = .9619. With 5 more counted as
    // wrong, 95 of 100: limits .887 and .984 (R 4.2.2 binom.test), so undecided.
    const pairs = [
      ...people(95, { rapid: "reactive", reference: "positive" }),
      ...people(5, { rapid: "invalid", reference: "positive" }),
    ];
    const [answer] = evaluated([setOf(pairs)], { study: { criteria: [criterion] } }).answers;
    expect(answer?.verdict).toBe("met");
    expect(answer?.byInvalidTreatment).toEqual([
      { treatment: "failure", verdict: "undecided" },
      { treatment: "reactive", verdict: "met" },
      { treatment: "nonreactive", verdict: "undecided" },
    ]);
  });

  it("tell whether readings outside the window decide the verdict", () => {
    const pairs = [
      ...people(95, { rapid: "reactive", reference: "positive" }),
      ...people(40, { rapid: "nonreactive", reference: "positive", window: "late", minutes: 45 }),
    ];
    const [answer] = evaluated([setOf(pairs)], { study: { criteria: [criterion] } }).answers;
    expect(answer?.verdict).toBe("not_met");
    expect(answer?.byWindowTreatment).toEqual([
      { treatment: "set_aside", verdict: "met" },
      { treatment: "invalid", verdict: "met" },
    ]);
  });

  it("count first devices for the invalid rate, whatever came of the repeat", () => {
    const pairs = [
      ...people(17, { rapid: "reactive", reference: "positive" }),
      ...people(2, { rapid: "reactive", reference: "positive", firstRapid: "invalid" }),
      person({ rapid: "invalid", reference: "not_done" }),
      person({ rapid: "not_done", reference: "positive" }),
    ];
    const rate = { ...criterion, measure: "invalid_rate" as const, at_least: undefined, at_most: 0.4 };
    const [answer] = evaluated([setOf(pairs)], { study: { criteria: [rate] } }).answers;
    expect(answer?.estimate).toMatchObject({ count: 3, total: 20 });
    // R 4.2.2 binom.test(3, 20): .0321 to .3789
    expect(answer?.estimate.upper).toBeCloseTo(0.378926826545314, 10);
    expect(answer?.verdict).toBe("met");
    expect(answer?.byInvalidTreatment).toEqual([]);
  });

  it("say so where the records hold nothing of the kind", () => {
    const [answer] = evaluated(undefined, {
      study: { criteria: [{ ...criterion, specimen: "plasma" }] },
    }).answers;
    expect(answer).toMatchObject({ verdict: "not_estimable", probability: null, further: null });
    expect(answer?.notes[0]?.code).toBe("no_observations");
  });
});

describe("the flow of people", () => {
  it("adds up at every split", () => {
    const set = setOf(
      [
        ...twentyPeople(),
        person({ rapid: "not_done", reference: "negative", minutes: null, window: "unknown" }),
      ],
      { before: [{ reason: "no_consent", people: 3 }] },
    );
    const [flow] = evaluated([set]).flows;
    expect(flow).toMatchObject({ enrolled: 24, eligible: 21, rapidNotDone: 1, tested: 20, analysed: 18 });
    const branches = flow?.branches ?? [];
    expect(branches.reduce((sum, branch) => sum + branch.people, 0)).toBe(flow?.tested);
    for (const branch of branches) {
      expect(Object.values(branch.reference).reduce((sum, count) => sum + count, 0)).toBe(branch.people);
    }
    const aside = (flow?.setAside ?? []).reduce((sum, entry) => sum + entry.people, 0);
    expect(aside + (flow?.analysed ?? 0)).toBe(flow?.eligible);
    expect(flow?.setAside).toEqual([
      { reason: "rapid_not_done", people: 1 },
      { reason: "reference_indeterminate", people: 1 },
      { reason: "invalid", people: 1 },
    ]);
  });
});

describe("invalid results", () => {
  it("are counted at the first and the last attempt, with their reasons", () => {
    const pairs = [
      ...people(18, { rapid: "nonreactive", reference: "negative" }),
      person({ rapid: "nonreactive", reference: "negative", firstRapid: "invalid" }),
      person({ rapid: "invalid", reference: "positive", invalidReason: "unreadable" }),
    ];
    const [invalid] = evaluated([setOf(pairs)]).invalid;
    expect(invalid?.firstAttempt).toMatchObject({ count: 2, total: 20 });
    expect(invalid?.firstAttempt.upper).toBeCloseTo(0.316982714019082, 10);
    expect(invalid?.final).toMatchObject({ count: 1, total: 20 });
    expect(invalid?.reasons).toEqual([{ reason: "unreadable", people: 1 }]);
    expect(
      invalid?.treatments.map(({ treatment, sensitivity }) => [
        treatment,
        sensitivity.count,
        sensitivity.total,
      ]),
    ).toEqual([
      ["set_aside", 0, 0],
      ["failure", 0, 1],
      ["reactive", 1, 1],
      ["nonreactive", 0, 1],
    ]);
  });
});

describe("subgroups", () => {
  const strata = [{ id: "lot", title: "Lot", column: "lot", planned: true }];
  const inLot = (lot: string | null) => ({ strata: { lot } });

  it("compare the groups with an exact test", () => {
    const pairs = [
      ...people(4, { rapid: "reactive", reference: "positive", ...inLot("A") }),
      person({ rapid: "reactive", reference: "positive", ...inLot("B") }),
      ...people(5, { rapid: "nonreactive", reference: "positive", ...inLot("B") }),
    ];
    const [subgroup] = evaluated([setOf(pairs)], { study: { strata } }).subgroups;
    expect(
      subgroup?.groups.map((group) => [group.group, group.sensitivity.count, group.sensitivity.total]),
    ).toEqual([
      ["A", 4, 4],
      ["B", 1, 6],
    ]);
    // R 4.2.2: fisher.test(matrix(c(4, 0, 1, 5), 2))
    expect(subgroup?.homogeneity.sensitivity?.exactPValue).toBeCloseTo(0.0476190476190476, 10);
    expect(subgroup?.homogeneity.specificity).toBeNull();
  });

  it("keep those without a group in sight and out of the test", () => {
    const pairs = [
      ...people(4, { rapid: "reactive", reference: "positive", ...inLot("A") }),
      ...people(3, { rapid: "nonreactive", reference: "positive", ...inLot(null) }),
    ];
    const [subgroup] = evaluated([setOf(pairs)], { study: { strata } }).subgroups;
    expect(subgroup?.groups.map((group) => group.group)).toEqual(["A", "not_recorded"]);
    expect(subgroup?.homogeneity.sensitivity).toBeNull();
  });

  it("stand in the order of the study file, numbers by size", () => {
    const order = (names: readonly string[], ordered?: string[]) =>
      evaluated(
        [setOf(names.map((lot) => person({ rapid: "reactive", reference: "positive", ...inLot(lot) })))],
        {
          study: {
            strata: strata.map((stratum) => (ordered === undefined ? stratum : { ...stratum, ordered })),
          },
        },
      ).subgroups[0]?.groups.map((group) => group.group);
    expect(order(["10", "9", "2"])).toEqual(["2", "9", "10"]);
    expect(order(["b", "a"])).toEqual(["a", "b"]);
    expect(order(["low", "high", "odd"], ["low", "middle", "high"])).toEqual(["low", "high", "odd"]);
  });

  it("test for a trend where the groups have an order", () => {
    const pairs = (["1", "2", "3"] as const).flatMap((lot, index) => [
      ...people(9 - 3 * index, { rapid: "reactive", reference: "positive", ...inLot(lot) }),
      ...people(1 + 3 * index, { rapid: "nonreactive", reference: "positive", ...inLot(lot) }),
    ]);
    const ordered = strata.map((stratum) => ({ ...stratum, ordered: ["1", "2", "3"] }));
    const [ranked] = evaluated([setOf(pairs)], { study: { strata: ordered } }).subgroups;
    const [unranked] = evaluated([setOf(pairs)], { study: { strata } }).subgroups;
    // R 4.2.2: all tables of 18 among 10, 10 and 10, with choose(): at least as far from the mean score.
    expect(ranked?.homogeneity.sensitivity?.trendPValue).toBeCloseTo(0.0113882908169975, 10);
    expect(unranked?.homogeneity.sensitivity?.trendPValue).toBeNull();
  });
});

describe("predictive values elsewhere", () => {
  const prevalences = [
    { id: "antenatal", title: "Antenatal care", values: { one: 0.1 }, source: "made up" },
    { id: "other", title: "Of another analyte", values: { two: 0.2 } },
  ];

  it("follow Bayes' rule at the programme's prevalence", () => {
    const [predictive] = evaluated(undefined, { study: { prevalences } }).predictive;
    expect(predictive?.programmes).toHaveLength(1);
    const [programme] = predictive?.programmes ?? [];
    // By hand: .1 * 8/9 / (.1 * 8/9 + .9 * 1/9) = 8/17; .9 * 8/9 / (.9 * 8/9 + .1 * 1/9) = 72/73.
    expect(programme?.ppv.value).toBeCloseTo(8 / 17, 12);
    expect(programme?.npv.value).toBeCloseTo(72 / 73, 12);
    expect(programme?.per10000.truePositives.value).toBeCloseTo(8000 / 9, 8);
    expect(programme?.per10000.falsePositives.value).toBeCloseTo(1000, 8);
  });

  it("come as a curve that goes through the programmes", () => {
    const [predictive] = evaluated(undefined, { study: { prevalences } }).predictive;
    const curve = predictive?.curve ?? [];
    expect(curve[0]?.prevalence).toBe(0.001);
    expect(curve.at(-1)?.prevalence).toBe(0.5);
    expect(curve).toHaveLength(62);
    const here = curve.find((point) => point.prevalence === 0.1);
    expect(here?.ppv).toEqual(predictive?.programmes[0]?.ppv);
    for (const [index, point] of curve.entries()) {
      const before = curve[index - 1];
      if (before === undefined) continue;
      expect(point.prevalence).toBeGreaterThan(before.prevalence);
      expect(point.ppv.value ?? 0).toBeGreaterThan(before.ppv.value ?? 0);
    }
  });

  it("give back the lowest prevalence for a wanted value", () => {
    const [predictive] = evaluated().predictive;
    // By hand: odds = .9 / .1 * (1/9) / (8/9) = 9/8, so the prevalence is 9/17.
    const [lowest] = predictive?.lowestPrevalence ?? [];
    expect(lowest).toMatchObject({ target: 0.9 });
    expect(lowest?.prevalence).toBeCloseTo(9 / 17, 12);
    expect(lowest?.byLowerLimit).toBeGreaterThan(9 / 17);
  });
});

describe("reading time", () => {
  it("counts people by minute and window, with the rounded ones", () => {
    const at = (minutes: number | null, window: "early" | "in" | "late" | "unknown") =>
      person({ rapid: "reactive", reference: "positive", minutes, window });
    const pairs = [
      at(12.5, "early"),
      at(15, "in"),
      at(15.9, "in"),
      at(17, "in"),
      at(20, "in"),
      at(31, "late"),
      at(null, "unknown"),
      person({ rapid: "not_done", reference: "positive", minutes: null, window: "unknown" }),
    ];
    const [time] = evaluated([setOf(pairs)]).readingTime;
    expect(time?.window).toEqual({ from: 15, to: 20 });
    expect(time?.people).toEqual({ early: 1, in: 4, late: 1, unknown: 1 });
    expect(time?.histogram).toEqual([
      { from: 12, to: 13, people: 1 },
      { from: 15, to: 16, people: 2 },
      { from: 17, to: 18, people: 1 },
      { from: 20, to: 21, people: 1 },
      { from: 31, to: 32, people: 1 },
    ]);
    expect(time?.roundedMinutes).toMatchObject({ count: 3, total: 6 });
    expect(time?.byWindow.find((entry) => entry.window === "in")?.sensitivity).toMatchObject({
      count: 4,
      total: 4,
    });
    expect(time?.treatments.map(({ treatment, sensitivity }) => [treatment, sensitivity.total])).toEqual([
      ["keep", 7],
      ["set_aside", 5],
      ["invalid", 5],
    ]);
  });

  it("has nothing to say where no minute is known", () => {
    const pairs = people(5, { rapid: "reactive", reference: "positive", minutes: null, window: "unknown" });
    expect(evaluated([setOf(pairs)]).readingTime).toEqual([]);
  });
});

describe("two analytes on one device", () => {
  const two = {
    study: {
      analytes: [
        ...tinyStudy.analytes,
        ...tinyStudy.analytes.map((analyte) => ({ ...analyte, id: "two", title: "Analyte two" })),
      ],
    },
  };
  const both = (
    code: string,
    one: ["reactive" | "nonreactive", "positive" | "negative"],
    other: ["reactive" | "nonreactive", "positive" | "negative"],
  ) =>
    [
      person({ person: code, rapid: one[0], reference: one[1] }),
      person({ person: code, rapid: other[0], reference: other[1] }),
    ] as const;
  const pairs = [
    both("a", ["reactive", "positive"], ["reactive", "positive"]),
    both("b", ["reactive", "positive"], ["reactive", "negative"]),
    both("c", ["nonreactive", "negative"], ["nonreactive", "negative"]),
    both("d", ["nonreactive", "negative"], ["nonreactive", "negative"]),
  ];

  it("are counted jointly, person by person", () => {
    const sets = [
      setOf(pairs.map(([one]) => one)),
      setOf(
        pairs.map(([, other]) => other),
        { analyte: "two" },
      ),
    ];
    const [joint] = evaluated(sets, two).joint;
    expect(joint?.analytes).toEqual(["one", "two"]);
    expect(joint?.table).toEqual([
      [1, 0, 0, 0],
      [1, 0, 0, 0],
      [0, 0, 0, 0],
      [0, 0, 0, 2],
    ]);
    expect(joint?.bothRight).toMatchObject({ count: 3, total: 4 });
    const second = joint?.crossReaction.find((entry) => entry.analyte === "two");
    expect(second).toMatchObject({
      other: "one",
      whenOtherPositive: { count: 1, total: 1 },
      whenOtherNegative: { count: 0, total: 2 },
    });
  });

  it("have no joint table where the records are counts", () => {
    const records = {
      shape: "counts" as const,
      table: "results.csv",
      columns: { true_positives: "a", false_positives: "b", false_negatives: "c", true_negatives: "d" },
    };
    const sets = [
      setOf(pairs.map(([one]) => one)),
      setOf(
        pairs.map(([, other]) => other),
        { analyte: "two" },
      ),
    ];
    expect(evaluated(sets, { study: { ...two.study, records } }).joint).toEqual([]);
  });
});

describe("typed results", () => {
  const check = (changes: Partial<InterpretationCheck>): InterpretationCheck => ({
    device: "D1",
    reader: "R1",
    analyte: "one",
    typed: "reactive",
    derived: "reactive",
    other: "reactive",
    ...changes,
  });

  it("tell who misread the rule from who saw otherwise", () => {
    const interpretations = [
      check({}),
      check({ typed: "nonreactive", derived: "invalid", other: "invalid" }),
      check({ typed: "nonreactive", derived: "invalid", other: null }),
      check({ other: "nonreactive" }),
      check({ reader: "R2" }),
    ];
    const evaluation = evaluated(undefined, { interpretations });
    expect(evaluation.interpretations).toEqual([
      {
        analyte: "one",
        reader: "R1",
        typed: 4,
        agree: 2,
        misreadRule: [{ derived: "invalid", typed: "nonreactive", count: 2 }],
        comparedLines: 3,
        sawDifferently: 1,
      },
      {
        analyte: "one",
        reader: "R2",
        typed: 1,
        agree: 1,
        misreadRule: [],
        comparedLines: 1,
        sawDifferently: 0,
      },
    ]);
  });
});

describe("participants", () => {
  it("give the positive share where all came as they were, and only counts where they were sought", () => {
    const pairs = [
      ...people(3, { rapid: "reactive", reference: "positive", site: "south" }),
      ...people(1, { rapid: "nonreactive", reference: "negative", site: "south" }),
      ...people(5, { rapid: "reactive", reference: "positive", site: "north", selection: "enriched" }),
      ...people(5, { rapid: "nonreactive", reference: "negative", site: "north" }),
    ];
    const { participants } = evaluated([setOf(pairs)]);
    expect(participants.bySite.map((site) => [site.site, site.people])).toEqual([
      ["north", 10],
      ["south", 4],
    ]);
    expect(participants.bySite[0]?.referencePositive[0]?.proportion).toMatchObject({
      count: 5,
      total: 10,
      value: null,
    });
    expect(participants.bySite[1]?.referencePositive[0]?.proportion).toMatchObject({
      count: 3,
      total: 4,
      value: 0.75,
    });
    expect(participants.bySelection.map((group) => [group.selection, group.people])).toEqual([
      ["consecutive", 9],
      ["enriched", 5],
    ]);
  });
});
