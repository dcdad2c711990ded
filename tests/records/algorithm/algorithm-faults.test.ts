import { describe, expect, it } from "vitest";
import {
  type AlgorithmText,
  algorithmText,
  channelText,
  kitText,
  parsed,
} from "../../evaluation/algorithm/any-algorithm.ts";

const [BOTH, ONE] = algorithmText().algorithms as [AlgorithmText, AlgorithmText];
const withAlgorithm = (change: AlgorithmText) => ({ algorithms: [{ ...BOTH, ...change }, ONE] });
const step = (
  id: string,
  kit: string,
  reactive: string,
  nonreactive: string,
  change: AlgorithmText = {},
) => ({
  id,
  kit,
  reactive,
  nonreactive,
  ...change,
});
const withSteps = (...steps: AlgorithmText[]) => withAlgorithm({ preset: undefined, kits: undefined, steps });
const withKit = (change: AlgorithmText) => ({
  kits: [kitText("K", 0.99, 0.98, change), kitText("L", 0.99, 0.98)],
});
const accuracy = (sensitivity: AlgorithmText) => ({
  analytes: { A1: { sensitivity, specificity: { value: 0.98 } } },
});
const withPairs = (...pairs: AlgorithmText[]) => ({ dependence: { kind: "pairs", pairs } });
const counted = (positive: number[], negative: number[]) => {
  const table = ([both, first, second, neither]: number[]) => ({ both, first, second, neither });
  return withPairs({ kits: ["K", "L"], counts: { positive: table(positive), negative: table(negative) } });
};

/** Place, what was expected (a part of it), what came. */
type Row = [what: string, change: AlgorithmText, column: string | null, expected: string, received: string];

const FIELDS: Row[] = [
  ["another format", { format: "fourfold-algorithm/2" }, "format", "fourfold-algorithm/1", "/2"],
  ["a mistyped field", { chanels: [] }, "chanels", 'no such field; did you mean "channels"?', '"chanels"'],
  ["no algorithm", { algorithms: [] }, "algorithms", "at least one algorithm", "[]"],
  [
    "three analytes",
    { analytes: ["A1", "A2", "A3"].map((id) => ({ id, title: id })) },
    "analytes",
    "at most two",
    "[{",
  ],
  [
    "perfection",
    withKit(accuracy({ value: 1 })),
    "kits.0.analytes.A1.sensitivity.value",
    "write 0.999, say",
    "1",
  ],
  [
    "a percentage",
    withKit(accuracy({ value: 98 })),
    "kits.0.analytes.A1.sensitivity.value",
    "above 0 and below 1",
    "98",
  ],
  [
    "more right than tested",
    withKit(accuracy({ right: 11, total: 10 })),
    "kits.0.analytes.A1.sensitivity",
    "right not above total",
    "{",
  ],
  [
    "two forms at once",
    withKit(accuracy({ value: 0.9, low: 0.8 })),
    "kits.0.analytes.A1.sensitivity",
    "value; or right and total; or low and high; or a and b",
    "{",
  ],
  [
    "a range upside down",
    withKit(accuracy({ low: 0.9, high: 0.8 })),
    "kits.0.analytes.A1.sensitivity",
    "low below high",
    "{",
  ],
  [
    "every run invalid",
    withKit({ invalid: { invalid: 5, tested: 5 } }),
    "kits.0.invalid",
    "invalid below tested",
    "{",
  ],
  ["all kits lost", withKit({ waste: 1 }), "kits.0.waste", "from 0 to 0.9", "1"],
  ["no kits in a pack", withKit({ pack: 0 }), "kits.0.pack", "1 or more", "0"],
  ["a price below nothing", withKit({ price: { value: -1 } }), "kits.0.price.value", "0 to", "-1"],
  [
    "nobody tested",
    { channels: [channelText(0.05, { clients: 0 })] },
    "channels.0.clients",
    "1 or more",
    "0",
  ],
  [
    "a prevalence of 0",
    { channels: [channelText(0)] },
    "channels.0.prevalence.A1.value",
    "above 0 and below 1",
    "0",
  ],
  [
    "a correlation above 1",
    withPairs({ kits: ["K", "L"], positive: 0, negative: 2 }),
    "dependence.pairs.0.negative",
    "from -1 to 1",
    "2",
  ],
  [
    "half a pair",
    withPairs({ kits: ["K", "L"], positive: 0 }),
    "dependence.pairs.0",
    "positive and negative, or counts",
    "{",
  ],
  ["four repeats", withAlgorithm({ again: 4 }), "algorithms.0.again", "0 to 3", "4"],
  [
    "a preset and steps",
    withAlgorithm({ steps: [step("s", "K", "positive", "negative")] }),
    "algorithms.0",
    "either preset or steps",
    "{",
  ],
  ["neither", withAlgorithm({ preset: undefined }), "algorithms.0", "either preset or steps", "{"],
  [
    "an unknown preset",
    withAlgorithm({ preset: "serial" }),
    "algorithms.0.preset",
    "serial_confirm",
    '"serial"',
  ],
  ["few draws", { draws: 10 }, "draws", "1,000 to 100,000", "10"],
  ["a level of 95", { level: 95 }, "level", "above 0.5 and below 1", "95"],
  ["a crowd", { channels: [channelText(0.05, { clients: 1e8 })] }, "channels.0.clients", "8,000,000", "1"],
  ["a huge pack", withKit({ pack: 20_000 }), "kits.0.pack", "at most 10,000", "20000"],
  ["years of waiting", withKit({ minutes: 1e6 }), "kits.0.minutes", "0 to 100,000 minutes", "1000000"],
];

const NAMES: Row[] = [
  [
    "an unknown analyte of a kit",
    withKit({ analytes: { A2: accuracy({ value: 0.9 }).analytes.A1 } }),
    "kits.0.analytes.A2",
    "an analyte of this file",
    '"A2"',
  ],
  [
    "a kit twice",
    { kits: [kitText("K", 0.9, 0.9), kitText("K", 0.9, 0.9)] },
    "kits.1.id",
    "each name once",
    '"K"',
  ],
  [
    "a channel without a prevalence",
    { channels: [channelText(0.05, { prevalence: {} })] },
    "channels.0.prevalence",
    "a prevalence of every analyte, A1 too",
    "{}",
  ],
  [
    "an analyte without an algorithm",
    {
      analytes: [
        { id: "A1", title: "One" },
        { id: "A2", title: "Two" },
      ],
      channels: [channelText(0.05, { prevalence: { A1: { value: 0.1 }, A2: { value: 0.1 } } })],
    },
    "analytes.1.id",
    "an analyte that an algorithm of this file is for",
    '"A2"',
  ],
  [
    "an unknown kit",
    withAlgorithm({ kits: ["K", "Ll"] }),
    "algorithms.0.kits.1",
    'a kit of this file that shows A1; did you mean "L"?',
    '"Ll"',
  ],
  [
    "too few kits",
    withAlgorithm({ kits: ["K"] }),
    "algorithms.0.kits",
    "2 to 5 kits for serial_confirm",
    '["K"]',
  ],
  [
    "a word too many",
    { algorithms: [BOTH, { ...ONE, discordant: "negative" }] },
    "algorithms.1.discordant",
    "only serial_confirm",
    '"negative"',
  ],
  [
    "two that lead",
    {
      algorithms: [
        { ...BOTH, main: true },
        { ...ONE, main: true },
      ],
    },
    "algorithms.1.main",
    "one main algorithm for A1",
    "true",
  ],
  [
    "nobody says who comes back",
    withAlgorithm({ retest_after: 14 }),
    "channels.0",
    "return, as algorithm both tests inconclusive people anew",
    '"clinic"',
  ],
  [
    "minutes that nobody knows",
    { ...withKit({ minutes: undefined }), targets: { most_minutes: 30 } },
    "kits.0",
    "minutes, as the targets ask",
    '"K"',
  ],
  [
    "a search in the dark",
    { ...withKit({ minutes: undefined }), search: {} },
    "kits.0",
    "minutes, as the search asks",
    '"K"',
  ],
  [
    "a search for an unknown kit",
    { search: { kits: ["K", "M"] } },
    "search.kits.1",
    "a kit of this file",
    '"M"',
  ],
  [
    "a register of one test",
    {
      observed: [
        { channel: "clinic", algorithm: "one", tested: 9, first_reactive: 5, second_nonreactive: 1 },
      ],
    },
    "observed.0.algorithm",
    "tests those who are reactive with another kit",
    '"one"',
  ],
  [
    "more discordant than reactive",
    {
      observed: [
        { channel: "clinic", algorithm: "both", tested: 9, first_reactive: 1, second_nonreactive: 2 },
      ],
    },
    "observed.0",
    "second_nonreactive not above first_reactive",
    "{",
  ],
];

const ENDLESS: Row[] = [
  [
    "an unknown way on",
    withSteps(step("a", "K", "b", "negative"), step("c", "L", "positive", "negative")),
    "algorithms.0.steps.0.reactive",
    "a step of this algorithm after step a",
    '"b"',
  ],
  [
    "a mistyped status",
    withSteps(step("a", "K", "positiv", "negative")),
    "algorithms.0.steps.0.reactive",
    'after step a; did you mean "positive"?',
    '"positiv"',
  ],
  [
    "a step that leads to itself",
    withSteps(step("a", "K", "positive", "negative", { invalid: "a" })),
    "algorithms.0.steps.0.invalid",
    "a way on from step a that doesn't lead back to it (a to a)",
    '"a"',
  ],
  [
    "a circle",
    withSteps(step("a", "K", "b", "negative"), step("b", "L", "a", "negative")),
    "algorithms.0.steps.0.reactive",
    "from step a that doesn't lead back to it (a to b to a)",
    '"b"',
  ],
  [
    "a step that nobody comes to",
    withSteps(step("a", "K", "positive", "negative"), step("b", "L", "positive", "negative")),
    "algorithms.0.steps.1.id",
    "a step that one comes to from the first, a",
    '"b"',
  ],
  [
    "a step twice",
    withSteps(step("a", "K", "positive", "negative"), step("a", "L", "positive", "negative")),
    "algorithms.0.steps.1.id",
    "each step once",
    '"a"',
  ],
  [
    "a step that is a status",
    withSteps(step("negative", "K", "positive", "inconclusive")),
    "algorithms.0.steps.0.id",
    "a name that is no status",
    '"negative"',
  ],
  [
    "an unknown kit of a step",
    withSteps(step("a", "M", "positive", "negative")),
    "algorithms.0.steps.0.kit",
    "a kit of this file that shows A1",
    '"M"',
  ],
  [
    "more ways than can be followed",
    {
      ...withKit({ invalid: { value: 0.01 } }),
      ...withSteps(
        ...Array.from({ length: 12 }, (_, at) => {
          const next = at === 11 ? "inconclusive" : `s${at + 1}`;
          return step(`s${at}`, "K", next, next, { invalid: next });
        }),
      ),
    },
    "algorithms.0.steps",
    "for algorithm both: at most 5000 paths",
    "more",
  ],
];

const DEPENDENCE: Row[] = [
  [
    "nothing said",
    { dependence: undefined },
    "dependence",
    "algorithm both may run K and L on one person",
    "nothing",
  ],
  [
    "a pair left out",
    { dependence: { kind: "pairs", pairs: [] } },
    "dependence.pairs",
    "the pair K and L for A1, as algorithm both may run both",
    "nothing",
  ],
  [
    "a repeat left out",
    withAlgorithm({ kits: ["K", "K"] }),
    "dependence.pairs",
    "the pair K and K again for A1",
    "nothing",
  ],
  [
    "a second pass left out",
    {
      ...withAlgorithm({ discordant: "inconclusive", retest_after: 14 }),
      channels: [channelText(0.05, { return: 0.5 })],
    },
    "dependence.pairs",
    "the pair K and K again",
    "nothing",
  ],
  [
    "a shared effect without that of a repeat",
    { ...withAlgorithm({ kits: ["K", "K"] }), dependence: { kind: "shared", positive: 1, negative: 1 } },
    "dependence",
    "same_kit, as algorithm both may run K and K again",
    "nothing",
  ],
  // Fréchet's bound for two kits that are each wrong in 2 of 100 negatives is 1; for 1 and 4 of 100 it is
  // (0.01 - 0.0004) / sqrt(0.01 x 0.99 x 0.04 x 0.96) = 0.492366: by hand.
  [
    "more than the kits allow",
    {
      kits: [kitText("K", 0.9, 0.99), kitText("L", 0.9, 0.96)],
      ...withPairs({ kits: ["L", "K"], positive: 0, negative: 0.5 }),
    },
    "dependence.pairs.0.negative",
    "to 0.492365, all that the accuracies",
    "0.5",
  ],
  [
    "a pair twice",
    withPairs(
      { kits: ["K", "L"], positive: 0, negative: 0 },
      { kits: ["L", "K"], analyte: "A1", positive: 0, negative: 0 },
    ),
    "dependence.pairs.1.kits",
    "each pair once for A1",
    '["L","K"]',
  ],
  [
    "a pair of an unknown kit",
    withPairs({ kits: ["K", "Z"], positive: 0, negative: 0 }),
    "dependence.pairs.0.kits.1",
    "a kit of this file",
    '"Z"',
  ],
  [
    "counts without false positives",
    counted([90, 3, 3, 1], [0, 0, 4, 400]),
    "dependence.pairs.0.counts.negative",
    "without them no correlation can be estimated: state it",
    "{",
  ],
  [
    "a search that needs more pairs",
    {
      kits: [kitText("K", 0.9, 0.9), kitText("L", 0.9, 0.9), kitText("M", 0.9, 0.9)],
      search: { most_tests: 2 },
    },
    "dependence.pairs",
    "the pair K and M for A1, as the search may run both",
    "nothing",
  ],
  [
    "correlations that can't hold together",
    {
      kits: ["K", "L", "M"].map((id) => kitText(id, 0.7, 0.7)),
      ...withAlgorithm({ kits: ["K", "L", "M"] }),
      ...withPairs(
        { kits: ["K", "L"], positive: 0, negative: 0.9 },
        { kits: ["L", "M"], positive: 0, negative: 0.9 },
        { kits: ["K", "M"], positive: 0, negative: -0.3 },
      ),
    },
    "dependence",
    "for algorithm both",
    "nothing",
  ],
  [
    "a search of correlations that can't hold together",
    {
      kits: ["K", "L", "M"].map((id) => kitText(id, 0.7, 0.7)),
      search: { most_tests: 3 },
      ...withPairs(
        { kits: ["K", "L"], positive: 0, negative: 0.9 },
        { kits: ["L", "M"], positive: 0, negative: 0.9 },
        { kits: ["K", "M"], positive: 0, negative: -0.3 },
      ),
    },
    "dependence",
    "for the search for A1",
    "nothing",
  ],
  [
    "more runs of one person than pairs can tell of",
    {
      ...withAlgorithm({ preset: "consecutive_three", kits: ["K", "L", "K"], retest_after: 14 }),
      channels: [channelText(0.05, { return: 0.5 })],
      dependence: {
        kind: "pairs",
        others: { positive: 0, negative: 0.1 },
        repeat: { positive: 0.5, negative: 0.5 },
      },
    },
    "dependence",
    'for algorithm both: "shared"',
    "nothing",
  ],
];

describe("faults of an algorithm file", () => {
  it.each([...FIELDS, ...NAMES, ...ENDLESS, ...DEPENDENCE])(
    "%s: place, what was expected, what came",
    (_, change, column, expected, received) => {
      const read = parsed(algorithmText(change));
      expect(read.ok).toBe(false);
      const found = read.issues.map((issue) => issue.column);
      const issue = read.issues.find((one) => one.column === column);
      expect(found).toContain(column);
      expect(issue).toMatchObject({ file: "algorithm.yaml", severity: "error" });
      expect(issue?.row).toBeGreaterThan(0);
      expect(issue?.expected).toContain(expected);
      expect(issue?.received).toContain(received);
    },
  );

  it("come all at once", () => {
    const change = withSteps(step("a", "Z", "nowhere", "negative"), step("b", "L", "b", "negative"));
    const read = parsed(algorithmText({ ...change, search: { kits: ["Y"] } }));
    expect(read.issues.map(({ column }) => column)).toEqual([
      "algorithms.0.steps.0.kit",
      "algorithms.0.steps.0.reactive",
      "algorithms.0.steps.1.reactive",
      "algorithms.0.steps.1.id",
      "search.kits.0",
    ]);
  });
});

describe("what is no fault", () => {
  it("one test needs no dependence", () => {
    expect(parsed(algorithmText({ dependence: undefined, algorithms: [ONE] })).ok).toBe(true);
  });

  it("independence, where it is named, and a repeat of a kit with it", () => {
    const change = { ...withAlgorithm({ kits: ["K", "K"] }), dependence: { kind: "independent" } };
    expect(parsed(algorithmText(change)).ok).toBe(true);
  });

  it("pairs by a word for all others, and for repeats", () => {
    const none = { positive: 0, negative: 0 };
    const dependence = { kind: "pairs", others: none, repeat: none };
    expect(parsed(algorithmText({ ...withAlgorithm({ kits: ["K", "L", "K"] }), dependence })).ok).toBe(true);
  });

  it("two steps that lead to the same third", () => {
    const change = withSteps(
      step("a", "K", "b", "c"),
      step("b", "L", "positive", "inconclusive"),
      step("c", "L", "inconclusive", "negative"),
    );
    expect(parsed(algorithmText(change)).ok).toBe(true);
  });
});
