import fc from "fast-check";
import { stringify } from "yaml";
import { checkDependence } from "../../../src/evaluation/algorithm/check-dependence.ts";
import type { AlgorithmFile } from "../../../src/records/algorithm/algorithm-schema.ts";
import { parseAlgorithm } from "../../../src/records/algorithm/parse-algorithm.ts";

/** Algorithm files in memory, for tests. Everything is invented. */
export type AlgorithmText = Record<string, unknown>;

/** A kit that is right in so many of a hundred, whatever the truth, and never invalid. */
export const kitText = (
  id: string,
  sensitivity: number,
  specificity: number,
  change: AlgorithmText = {},
) => ({
  id,
  title: `Kit ${id}`,
  analytes: { A1: { sensitivity: { value: sensitivity }, specificity: { value: specificity } } },
  price: { value: 1 },
  minutes: 10,
  ...change,
});

export const channelText = (prevalence: number, change: AlgorithmText = {}) => ({
  id: "clinic",
  title: "A clinic",
  clients: 1000,
  prevalence: { A1: { value: prevalence } },
  ...change,
});

const SMALL = {
  format: "fourfold-algorithm/1",
  id: "small",
  title: "Two kits",
  analytes: [{ id: "A1", title: "Analyte one" }],
  kits: [kitText("K", 0.99, 0.98), kitText("L", 0.99, 0.98)],
  dependence: { kind: "pairs", pairs: [{ kits: ["K", "L"], positive: 0, negative: 0.1 }] },
  channels: [channelText(0.05)],
  algorithms: [
    { id: "both", title: "K, then L", analyte: "A1", preset: "serial_confirm", kits: ["K", "L"] },
    { id: "one", title: "K alone", analyte: "A1", preset: "single", kits: ["K"] },
  ],
  draws: 1000,
};

/** A small algorithm file, changed; a field that is undefined is left out. */
export const algorithmText = (change: AlgorithmText = {}): AlgorithmText =>
  JSON.parse(JSON.stringify({ ...SMALL, ...change })) as AlgorithmText;

/** What reading makes of an algorithm file. */
export const parsed = (text: AlgorithmText) =>
  parseAlgorithm(
    { name: "algorithm.yaml", bytes: new TextEncoder().encode(stringify(text)) },
    checkDependence,
  );

/** An algorithm file that must be readable. */
export function readable(text: AlgorithmText): AlgorithmFile {
  const read = parsed(text);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

const share = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(4)));
const accuracy = fc.oneof(
  share(0.5, 0.999).map((value) => ({ value })),
  fc.integer({ min: 0, max: 60 }).map((wrong) => ({ right: 300 - wrong, total: 300 })),
  fc.tuple(share(0.6, 0.9), share(0.91, 0.99)).map(([low, high]) => ({ low, high })),
  fc.constant({ a: 95.5, b: 3.5 }),
);
const invalid = fc.oneof(
  fc.constant({ value: 0 }),
  share(0, 0.2).map((value) => ({ value })),
  fc.constant({ invalid: 3, tested: 200 }),
);
const kit = (id: string) =>
  fc.record({
    id: fc.constant(id),
    title: fc.constant(`Kit ${id}`),
    antigens: fc.constantFrom("one", "other"),
    analytes: fc.record({ A1: fc.record({ sensitivity: accuracy, specificity: accuracy }) }),
    invalid,
    price: fc.oneof(fc.constant({ value: 2 }), fc.constant({ low: 1, high: 3 })),
    minutes: fc.constantFrom(10, 20),
    waste: fc.constantFrom(0, 0.05),
    pack: fc.constantFrom(1, 25),
  });
const channel = (id: string) =>
  fc.record({
    id: fc.constant(id),
    title: fc.constant(id),
    clients: fc.integer({ min: 1, max: 5000 }),
    prevalence: fc.record({
      A1: fc.oneof(
        share(0.001, 0.5).map((value) => ({ value })),
        fc.constant({ positive: 12, tested: 300 }),
      ),
    }),
    return: share(0, 1),
  });
const phi = fc.record({ positive: share(0, 0.3), negative: share(0, 0.2) });
const dependence = fc.oneof(
  fc.constant({ kind: "independent" }),
  fc.record({ kind: fc.constant("pairs"), others: phi, repeat: phi }),
  fc.record({ kind: fc.constant("shared"), positive: share(0, 1.5), negative: share(0, 1.5), same_kit: phi }),
);
const KITS = { single: 1, serial_confirm: 2, parallel: 2, tie_breaker: 3, consecutive_two: 2 };
const algorithm = fc
  .record({
    preset: fc.constantFrom(...(Object.keys(KITS) as (keyof typeof KITS)[])),
    kits: fc.tuple(
      fc.constantFrom("K", "L", "M"),
      fc.constantFrom("K", "L", "M"),
      fc.constantFrom("K", "L", "M"),
    ),
    again: fc.constantFrom(0, 1, 2),
    retest_after: fc.option(fc.constant(14), { nil: undefined }),
  })
  .map((one) => ({ ...one, title: one.preset, analyte: "A1", kits: one.kits.slice(0, KITS[one.preset]) }));

/** Any algorithm file that a person might write; not all of them can be read. */
export const anyAlgorithm: fc.Arbitrary<AlgorithmText> = fc
  .record({
    kits: fc.tuple(kit("K"), kit("L"), kit("M")),
    dependence,
    channels: fc.oneof(fc.tuple(channel("c1")), fc.tuple(channel("c1"), channel("c2"))),
    algorithms: fc
      .array(algorithm, { minLength: 1, maxLength: 3 })
      .map((list) => list.map((one, at) => ({ ...one, id: `a${at}` }))),
    costs: fc.option(fc.constant({ unit: "coins", per_client: 1, per_missed: 10 }), { nil: undefined }),
    targets: fc.constantFrom(
      {},
      { ppv: 0.95 },
      { ppv: 0.9, npv: 0.9, most_inconclusive: 0.1, most_minutes: 25, different_antigens: true },
    ),
    search: fc.option(fc.constantFrom({ most_tests: 2 }, { most_tests: 1 }), { nil: undefined }),
    level: fc.constantFrom(0.8, 0.95),
  })
  .map((change) => algorithmText({ ...change, draws: 1000 }));
