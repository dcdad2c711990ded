import { describe, expect, it } from "vitest";
import type { AlgorithmLine, Algorithms } from "../../../src/evaluation/algorithm/document.ts";
import { evaluateAlgorithms } from "../../../src/evaluation/algorithm/evaluate-algorithms.ts";
import { type AlgorithmText, algorithmText, channelText, kitText, readable } from "./any-algorithm.ts";

const evaluated = (change: AlgorithmText = {}): Algorithms =>
  evaluateAlgorithms(readable(algorithmText(change)), []);
const lineOf = ({ answer }: Algorithms, algorithm: string, channel = "clinic") =>
  answer.lines.find((one) => one.algorithm === algorithm && one.channel === channel) as AlgorithmLine;
const [BOTH, ONE] = algorithmText().algorithms as [AlgorithmText, AlgorithmText];

// Two kits, both right in 99 of 100 positives and 98 of 100 negatives, 5 % positive, error correlation 0.1 among the
// negatives. By hand: both reactive among the negatives 0.02 x 0.02 + 0.1 x 0.02 x 0.98, and so on.
const FALSE_BOTH = 0.0004 + 0.1 * 0.0196;
const TRUE_BOTH = 0.9801;
const FIRST_REACTIVE = 0.05 * 0.99 + 0.95 * 0.02;

describe("two kits, one after the other, by hand", () => {
  const algorithms = evaluated();
  const both = lineOf(algorithms, "both");

  it("PPV with the dependence stated, and without", () => {
    expect(both.ppv.value).toBeCloseTo((0.05 * TRUE_BOTH) / (0.05 * TRUE_BOTH + 0.95 * FALSE_BOTH), 12);
    expect(both.ppv.value).toBeCloseTo(0.9563, 4);
    expect(both.independent.ppv).toBeCloseTo((0.05 * TRUE_BOTH) / (0.05 * TRUE_BOTH + 0.95 * 0.0004), 12);
    expect(both.independent.ppv).toBeCloseTo(0.9923, 4);
  });

  it("people among 100,000, and among those of a year", () => {
    expect(both.per100000.truePositives).toBeCloseTo(5000 * TRUE_BOTH, 8);
    expect(both.per100000.falsePositives).toBeCloseTo(95_000 * FALSE_BOTH, 8);
    expect(both.per100000.missed).toBeCloseTo(5000 * (1 - TRUE_BOTH), 8);
    expect(both.perYear.missed).toBeCloseTo(50 * (1 - TRUE_BOTH), 10);
    expect(both.per100000.inconclusive).toBe(0);
  });

  it("10,000 people on their way, in whole people that add up", () => {
    const flow = algorithms.outcomes[0]?.flow;
    expect(flow?.steps.map(({ diseased, nondiseased }) => diseased + nondiseased)).toEqual([
      10_000,
      expect.closeTo(10_000 * FIRST_REACTIVE, 8),
    ]);
    // True positives 490.05, false positives 22.42, missed 9.95, true negatives 9,477.58.
    expect(flow?.ends).toEqual([
      { end: "positive", diseased: 490, nondiseased: 22 },
      { end: "negative", diseased: 10, nondiseased: 9478 },
      { end: "inconclusive", diseased: 0, nondiseased: 0 },
      { end: "lost", diseased: 0, nondiseased: 0 },
    ]);
  });

  it("after each reactive result, and from which prevalence a target is reached", () => {
    const [curve] = evaluated({ targets: { ppv: 0.99 } }).predictive;
    const point = curve?.points.find(({ prevalence }) => prevalence === 0.05);
    expect(point?.afterReactive[0]).toBeCloseTo((0.05 * 0.99) / FIRST_REACTIVE, 12);
    expect(point?.afterReactive[1]).toBeCloseTo(both.ppv.value as number, 12);
    // Independent, two such kits reach 99 % from 3.88 % on: 0.99 x 0.0004 / (0.99 x 0.0004 + 0.01 x 0.9801).
    expect(curve?.reachesTarget.independent).toBeCloseTo(0.0388, 4);
    const stated = (0.99 * FALSE_BOTH) / (0.99 * FALSE_BOTH + 0.01 * TRUE_BOTH);
    expect(curve?.reachesTarget.stated).toBeCloseTo(stated, 12);
  });

  it("minutes: the second kit only for those reactive with the first", () => {
    expect(both.minutes.mean).toBeCloseTo(10 + 10 * FIRST_REACTIVE, 10);
    expect(both.minutes.most).toBe(20);
  });

  it("kits for a year: as many as a binomial of 1,000 people asks for", () => {
    const order = algorithms.stock.find(({ kit }) => kit === "L")?.order.values;
    expect(order?.mean).toBeCloseTo(1000 * FIRST_REACTIVE, 9);
    // SciPy 1.10.1: stats.binom.ppf(0.95, 1000, 0.0685) = 82, sf(82) = 0.0428.
    expect(order?.ordered.runs).toBe(82);
    expect(algorithms.stock.find(({ kit }) => kit === "K")?.order.values.ordered.runs).toBe(1000);
  });

  it("known numbers have no spread", () => {
    expect(both.ppv.lower).toBeCloseTo(both.ppv.value as number, 12);
    expect(both.ppv.upper).toBeCloseTo(both.ppv.value as number, 12);
  });
});

describe("what it costs, by hand", () => {
  const kits = [kitText("K", 0.99, 0.98, { price: { value: 2 }, waste: 0.2 }), kitText("L", 0.99, 0.98)];
  const costs = { unit: "coins", per_client: 0.5, per_false_positive: 10, per_missed: 100 };
  const algorithms = evaluated({ kits, costs });
  const both = lineOf(algorithms, "both");
  // Kit K costs 2 / 0.8, for a fifth of them is lost.
  const cost = 0.5 + 2.5 + FIRST_REACTIVE;

  it("per client, per case found, per false positive averted", () => {
    expect(both.cost.perClient.value).toBeCloseTo(cost, 12);
    expect(both.cost.perCaseFound).toBeCloseTo(cost / (0.05 * TRUE_BOTH), 10);
    expect(both.cost.perFalsePositiveAverted).toBeCloseTo(FIRST_REACTIVE / (0.95 * (0.02 - FALSE_BOTH)), 8);
    const errors = 10 * 0.95 * FALSE_BOTH + 100 * 0.05 * (1 - TRUE_BOTH);
    expect(both.cost.withErrors).toBeCloseTo(cost + errors, 10);
  });

  it("one test alone averts nothing, and says so", () => {
    const one = lineOf(algorithms, "one");
    expect(one.cost.perFalsePositiveAverted).toBeNull();
    expect(one.notes.map(({ path }) => path)).toEqual(["cost.perFalsePositiveAverted"]);
  });

  it("without costs those of the kits, and it says so", () => {
    const bare = evaluated();
    expect(lineOf(bare, "one").cost.perClient.value).toBe(1);
    expect(lineOf(bare, "one").cost.withErrors).toBeNull();
    expect(bare.notes.map(({ code }) => code)).toContain("no_costs");
  });

  it("an invalid run uses a kit and is repeated", () => {
    const spoilt = [kitText("K", 0.99, 0.98, { invalid: { value: 0.1 } }), kitText("L", 0.99, 0.98)];
    const one = lineOf(evaluated({ kits: spoilt }), "one");
    expect(one.kits[0]?.perPerson).toBeCloseTo(1.1, 12);
    expect(one.per100000.inconclusive).toBeCloseTo(1000, 8);
  });
});

describe("those who come back, by hand", () => {
  const algorithms = evaluated({
    dependence: { kind: "independent" },
    algorithms: [{ ...BOTH, discordant: "inconclusive", retest_after: 14 }],
    channels: [channelText(0.05, { return: 0.5 })],
  });
  const both = lineOf(algorithms, "both");

  it("half of the inconclusive are lost, the others go through it once more", () => {
    const [missed, wrong] = [0.99 * 0.01, 0.02 * 0.98];
    const undecided = 0.05 * missed + 0.95 * wrong;
    expect(both.per100000.lost).toBeCloseTo(100_000 * 0.5 * undecided, 7);
    expect(both.per100000.truePositives).toBeCloseTo(5000 * (TRUE_BOTH + 0.5 * missed * TRUE_BOTH), 7);
    expect(both.per100000.falsePositives).toBeCloseTo(95_000 * 0.0004 * (1 + 0.5 * wrong), 7);
    expect(algorithms.outcomes[0]?.flow.returning).toEqual({
      diseased: expect.closeTo(500 * 0.5 * missed, 8),
      nondiseased: expect.closeTo(9500 * 0.5 * wrong, 8),
    });
  });

  it("independence that was named is said first", () => {
    expect(algorithms.notes[0]?.code).toBe("independence");
    expect(algorithms.dependence.kind).toBe("independent");
    expect(both.independent.ppv).toBe(both.ppv.value);
  });
});

describe("dependence", () => {
  it("a sweep begins at independence and ends where the kits are wrong about the same people only", () => {
    const algorithms = evaluated();
    const [sweep] = algorithms.dependence.sweeps;
    const { independent } = lineOf(algorithms, "both");
    expect(sweep?.nondiseased[0]).toMatchObject({ value: 0, ppv: expect.closeTo(independent.ppv ?? 0, 12) });
    const last = sweep?.nondiseased.at(-1);
    expect(last?.value).toBeCloseTo(1, 12);
    expect(last?.falsePositives).toBeCloseTo(95_000 * 0.02, 7);
    expect(sweep?.diseased.at(-1)?.sensitivity).toBeCloseTo(0.99, 12);
    const ppvs = sweep?.nondiseased.map(({ ppv }) => ppv as number) ?? [];
    expect(ppvs).toEqual(ppvs.toSorted((one, other) => other - one));
  });

  it("is estimated where both kits were used on the same people, whichever is named first", () => {
    const counts = {
      positive: { both: 90, first: 6, second: 3, neither: 1 },
      negative: { both: 2, first: 10, second: 8, neither: 480 },
    };
    const phi = (both: number, first: number, second: number, neither: number) =>
      (both * neither - first * second) /
      Math.sqrt((both + first) * (both + second) * (neither + first) * (neither + second));
    const turned = Object.fromEntries(
      Object.entries(counts).map(([truth, one]) => [truth, { ...one, first: one.second, second: one.first }]),
    );
    for (const pair of [
      { kits: ["K", "L"], counts },
      { kits: ["L", "K"], counts: turned },
    ]) {
      const kits = [kitText("K", 0.96, 0.976), kitText("L", 0.93, 0.98)];
      const [found] = evaluated({ kits, dependence: { kind: "pairs", pairs: [pair] } }).dependence.pairs;
      expect(found).toMatchObject({ first: "K", second: "L", source: "estimated", notes: [] });
      expect(found?.diseased).toBeCloseTo(phi(90, 6, 3, 1), 12);
      expect(found?.nondiseased).toBeCloseTo(phi(2, 10, 8, 480), 12);
      expect(found?.estimated?.input.nondiseased.firstOnly).toBe(10);
    }
  });

  it("an estimate beyond what the kits allow is brought within it, and says so", () => {
    const counts = {
      positive: { both: 95, first: 1, second: 1, neither: 3 },
      negative: { both: 20, first: 1, second: 1, neither: 478 },
    };
    const kits = [kitText("K", 0.99, 0.99), kitText("L", 0.9, 0.96)];
    const pairs = [{ kits: ["K", "L"], counts }];
    const algorithms = evaluated({ kits, dependence: { kind: "pairs", pairs } });
    const [pair] = algorithms.dependence.pairs;
    expect(pair?.nondiseased).toBeCloseTo(0.0096 / Math.sqrt(0.0099 * 0.0384), 10);
    expect(algorithms.notes.filter(({ code }) => code === "dependence_cut")).toHaveLength(2);
  });

  it("by a shared effect keeps each kit's own accuracy", () => {
    const algorithms = evaluated({
      dependence: { kind: "shared", positive: 0.8, negative: 1.2, loadings: { L: 0.5 } },
    });
    const [pair] = algorithms.dependence.pairs;
    expect(pair?.source).toBe("shared");
    const { bothReactive, firstOnly, secondOnly } = pair?.table.values.nondiseased ?? {};
    expect((bothReactive ?? 0) + (firstOnly ?? 0)).toBeCloseTo(0.02, 10);
    expect((bothReactive ?? 0) + (secondOnly ?? 0)).toBeCloseTo(0.02, 10);
    const both = lineOf(algorithms, "both");
    expect(both.per100000.falsePositives).toBeCloseTo(95_000 * (bothReactive ?? 0), 7);
    expect(algorithms.dependence.sweeps[0]?.over).toBe("spread");
    expect(algorithms.dependence.sweeps[0]?.nondiseased[0]?.falsePositives).toBeCloseTo(95_000 * 0.0004, 6);
  });

  it("a register's discordant results are held against what is expected", () => {
    const observed = [
      { channel: "clinic", algorithm: "both", tested: 10_000, first_reactive: 685, second_nonreactive: 300 },
    ];
    const [found] = evaluated({ observed }).observed;
    // By hand: (0.05 x 0.99 x 0.01 + 0.95 x (0.02 x 0.98 - 0.00196)) / 0.0685.
    const expected = (0.05 * 0.0099 + 0.95 * (0.0196 - 0.00196)) / FIRST_REACTIVE;
    expect(found?.discordance.values.discordant.value).toBeCloseTo(expected, 12);
    expect(found?.discordance.values.discordance?.twoSided).toBeLessThan(1e-6);
  });
});

describe("the best", () => {
  const targets = { ppv: 0.95 };
  it("is the cheapest that reaches the targets", () => {
    const { answer } = evaluated({ targets });
    expect(answer.best).toEqual([
      {
        channel: "clinic",
        analyte: "A1",
        cheapest: "both",
        cheapestChance: 1,
        surest: "both",
        surestChance: 1,
      },
    ]);
    expect(answer.lines.map(({ meets }) => meets.all)).toEqual([true, false]);
  });

  it("as sure as another is as good: the cheaper of the two is named", () => {
    const three = {
      id: "three",
      title: "Thrice",
      analyte: "A1",
      preset: "consecutive_three",
      kits: ["K", "L", "L"],
    };
    const { answer } = evaluated({
      targets,
      algorithms: [three, BOTH, ONE],
      dependence: {
        kind: "pairs",
        others: { positive: 0, negative: 0.1 },
        repeat: { positive: 0.5, negative: 0.5 },
      },
    });
    expect(answer.lines.map(({ chance }) => chance.all)).toEqual([1, 1, 0]);
    expect(answer.best[0]?.surest).toBe("both");
  });

  it("is none where none reaches them, and it says so", () => {
    const algorithms = evaluated({ targets: { ppv: 0.999 } });
    expect(algorithms.answer.best[0]?.cheapest).toBeNull();
    expect(algorithms.notes.map(({ code }) => code)).toContain("none_reaches");
  });

  it("is not named where nothing is asked", () => {
    const algorithms = evaluated();
    expect(algorithms.answer.best[0]).toMatchObject({ cheapest: null, surest: null });
    expect(algorithms.notes.map(({ code }) => code)).toContain("no_targets");
  });

  it("may not use two kits with the same antigens where that is asked, nor one kit twice", () => {
    const shared = [
      kitText("K", 0.99, 0.98, { antigens: "same" }),
      kitText("L", 0.99, 0.98, { antigens: "same" }),
    ];
    const asked = { targets: { different_antigens: true } };
    expect(lineOf(evaluated({ ...asked, kits: shared }), "both").meets.antigens).toBe(false);
    expect(lineOf(evaluated(asked), "both").meets.antigens).toBe(true);
    const repeated = {
      ...asked,
      algorithms: [{ ...BOTH, kits: ["K", "K"] }],
      dependence: { kind: "independent" },
    };
    expect(lineOf(evaluated(repeated), "both").meets.antigens).toBe(false);
  });

  it("is found among all that are usual, too: the same as of the file", () => {
    const algorithms = evaluated({ targets, search: { most_tests: 2 } });
    const [found] = algorithms.frontier;
    expect(found?.channels[0]).toMatchObject({ prevalence: 0.05, chance: 1 });
    expect(found?.channels[0]?.best).toMatch(/^serial_confirm: (K, L|L, K)$/);
    const at = found?.search?.values.at.find(({ prevalence }) => prevalence === 0.05);
    const standing = at?.notBeaten.find(({ algorithm }) => algorithm === found?.channels[0]?.best);
    expect(standing?.falsePositives).toBeCloseTo(95_000 * FALSE_BOTH, 7);
    expect(standing?.cost).toBeCloseTo(lineOf(algorithms, "both").cost.perClient.value as number, 12);
  });

  it("is not found where the targets leave nothing to search", () => {
    const [found] = evaluated({ targets: { most_minutes: 5 }, search: {} }).frontier;
    expect(found).toMatchObject({ search: null, channels: [{ best: null, chance: null }] });
    expect(found?.notes.map(({ code }) => code)).toEqual(["no_algorithm"]);
  });
});

describe("two analytes on one device", () => {
  const shows = { sensitivity: { value: 0.99 }, specificity: { value: 0.98 } };
  const two = {
    analytes: [
      { id: "A1", title: "One" },
      { id: "A2", title: "Two" },
    ],
    kits: [
      kitText("K", 0.99, 0.98, {
        analytes: { A1: shows, A2: shows },
        invalid: { value: 0.1 },
        price: { value: 3 },
      }),
      kitText("L", 0.99, 0.98),
    ],
    channels: [channelText(0.05, { prevalence: { A1: { value: 0.05 }, A2: { value: 0.3 } } })],
    algorithms: [BOTH, { ...ONE, id: "other", analyte: "A2" }],
    costs: { unit: "coins", per_client: 0.5 },
  };

  it("it is counted and paid once, and the person is tested once", () => {
    const algorithms = evaluated(two);
    const [channel] = algorithms.together?.channels ?? [];
    // 1 and a tenth, each analyte apart; of both together, once.
    expect(channel).toMatchObject({
      sharedRuns: expect.closeTo(1.1, 12),
      devicesApart: expect.closeTo(2.2, 12),
      devices: expect.closeTo(1.1, 12),
    });
    const apart = lineOf(algorithms, "both").cost.perClient.value as number;
    expect(channel?.costApart).toBeCloseTo(apart + 3.8, 12);
    expect(channel?.cost).toBeCloseTo(apart, 12);
    const order = algorithms.stock.find(({ kit }) => kit === "K")?.order.values;
    expect(order?.mean).toBeCloseTo(1100, 6);
    const notes = algorithms.stock.map(({ kit, notes: said }) => [kit, said.map(({ code }) => code)]);
    expect(notes).toEqual([
      ["K", ["shared_device"]],
      ["L", []],
    ]);
  });

  it("what the second analyte uses beyond is counted", () => {
    const repeated = { ...two.algorithms[1], preset: "consecutive_two", kits: ["K", "K"] };
    const algorithms = evaluated({
      ...two,
      algorithms: [BOTH, repeated],
      dependence: { kind: "independent" },
    });
    const reactive = 0.3 * 0.99 + 0.7 * 0.02;
    const [channel] = algorithms.together?.channels ?? [];
    expect(channel?.devices).toBeCloseTo(1.1 + 1.1 * 0.99 * reactive, 10);
    const order = algorithms.stock.find(({ kit }) => kit === "K")?.order.values;
    expect(order?.mean).toBeCloseTo(1000 * (channel?.devices ?? 0), 6);
  });

  it("nothing is shared where the algorithms begin with different kits", () => {
    expect(evaluated().together).toBeNull();
  });
});

describe("what can't be said", () => {
  it("of an algorithm that calls nobody positive, and of one that calls nobody negative", () => {
    const step = { id: "s", kit: "K", invalid: "inconclusive" };
    const algorithms = evaluated({
      targets: { ppv: 0.5 },
      algorithms: [
        {
          id: "none",
          title: "None",
          analyte: "A1",
          steps: [{ ...step, reactive: "inconclusive", nonreactive: "negative" }],
        },
        {
          id: "all",
          title: "All",
          analyte: "A1",
          steps: [{ ...step, reactive: "positive", nonreactive: "positive" }],
        },
      ],
    });
    const [none, all] = [lineOf(algorithms, "none"), lineOf(algorithms, "all")];
    expect(none.ppv).toEqual({ value: null, lower: null, upper: null });
    expect(none.meets.ppv).toBe(false);
    expect(none.cost.perCaseFound).toBeNull();
    expect(all.npv.value).toBeNull();
    expect(all.ppv.value).toBeCloseTo(0.05, 12);
    expect(algorithms.predictive[0]?.reachesTarget).toEqual({ stated: null, independent: null });
  });

  it("of kits of which hardly anything is known", () => {
    const vague = { a: 0.001, b: 0.001 };
    const sure = { right: 1_000_000_000, total: 1_000_000_000 };
    const kits = [
      kitText("K", 0.9, 0.9, { analytes: { A1: { sensitivity: vague, specificity: sure } }, waste: 0.9 }),
      kitText("L", 0.9, 0.9, {
        analytes: { A1: { sensitivity: { right: 0, total: 1 }, specificity: vague } },
      }),
    ];
    const dependence = { kind: "pairs", pairs: [{ kits: ["K", "L"], positive: 0, negative: 0 }] };
    const prevalence = { A1: { positive: 0, tested: 1 } };
    const channels = [channelText(0.05, { prevalence, clients: 8_000_000 })];
    const algorithms = evaluated({ kits, dependence, channels, targets: { ppv: 0.9 }, search: {} });
    expect(algorithms.answer.lines).toHaveLength(2);
    expect(algorithms.stock[0]?.order.values.ordered.kits).toBeGreaterThanOrEqual(80_000_000 - 1);
  });
});

describe("draws", () => {
  it("are fewer, and it says so, where pairs take long", () => {
    const algorithms = evaluated({
      draws: 5000,
      algorithms: [{ ...BOTH, discordant: "inconclusive", retest_after: 7 }],
      channels: [channelText(0.05, { return: 0.5 })],
      dependence: {
        kind: "pairs",
        others: { positive: 0, negative: 0.1 },
        repeat: { positive: 0.5, negative: 0.5 },
      },
    });
    expect(algorithms.uncertainty[0]?.drawn.values.draws).toBe(3000);
    expect(algorithms.notes.map(({ code }) => code)).toContain("fewer_draws");
    expect(evaluated({ draws: 5000 }).uncertainty[0]?.drawn.values.draws).toBe(5000);
  });
});

describe("several channels", () => {
  it("each has its own people, and one order for all is less than theirs together", () => {
    const channels = [channelText(0.05), channelText(0.2, { id: "other", clients: 500 })];
    const { stock, answer } = evaluated({ channels });
    expect(answer.lines).toHaveLength(4);
    const runs = (channel: string | null) =>
      stock.find((one) => one.kit === "L" && one.channel === channel)?.order.values.ordered.runs ?? 0;
    expect(runs(null)).toBeGreaterThan(0);
    expect(runs(null)).toBeLessThan(runs("clinic") + runs("other"));
  });

  it("with other shares returning are drawn apart", () => {
    const { uncertainty } = evaluated({
      dependence: { kind: "independent" },
      algorithms: [{ ...BOTH, discordant: "inconclusive", retest_after: 7 }],
      channels: [
        channelText(0.05, { return: 0.5 }),
        channelText(0.2, { id: "other", return: 0.5 }),
        channelText(0.3, { id: "third", return: 0.9 }),
      ],
    });
    expect(uncertainty.map(({ channels }) => channels)).toEqual([["clinic", "other"], ["third"]]);
  });
});
