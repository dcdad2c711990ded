import { type ComparisonSide, comparisonSide } from "../records/comparison-sides.ts";
import type { Kit } from "../records/kit.ts";
import type { LatentTest } from "../records/latent-class-fields.ts";
import type { Pair, PairedSet, SetAside } from "../records/model.ts";
import { type Treatment, treatedRapid } from "../records/treatment.ts";
import type { LatentClass } from "./document.ts";
import type { Worktop } from "./worktop.ts";

type TestPeople = LatentClass["tests"][number]["people"];

/** A test of the model, and where its results stand; `set` is absent where the records hold none. */
export interface ModelTest {
  readonly id: string;
  readonly reference: boolean;
  readonly side: NonNullable<LatentClass["tests"][number]["side"]> | null;
  readonly set: PairedSet | undefined;
}

/** People with the same results in one population; `null`: not done, or without a result that counts. */
export interface LatentPattern {
  readonly reactive: readonly (boolean | null)[];
  people: number;
}

/** `asked` = `counted` + the sum of `setAside`; each test's parts add up to `counted`. */
export interface LatentPeople {
  readonly asked: number;
  readonly counted: number;
  readonly setAside: readonly SetAside[];
  readonly populations: readonly { readonly label: string; readonly patterns: readonly LatentPattern[] }[];
  /** In the order of the tests. */
  readonly byTest: readonly TestPeople[];
}

/** The tests of a model with the sets that hold their results. */
export function modelTests(worktop: Worktop, analyte: string, tests: readonly LatentTest[]): ModelTest[] {
  const { records, study } = worktop;
  const main = records.kits[0] as Kit;
  const sets = records.sets.filter((set) => set.analyte === analyte);
  const found = tests.map((test): ModelTest => {
    if (test.reference) return { id: test.id, reference: true, side: null, set: undefined };
    const { kit, specimen, reader }: ComparisonSide = comparisonSide(test, study, main);
    const side = { kit, specimen, reader: reader ?? sets[0]?.reader ?? "recorded" };
    const set = sets.find(
      (one) => one.kit === side.kit && one.specimen === side.specimen && one.reader === side.reader,
    );
    return { id: test.id, reference: false, side, set };
  });
  const carrier = found.find((test) => test.set !== undefined)?.set ?? sets[0];
  return found.map((test) => (test.reference ? { ...test, set: carrier } : test));
}

/**
 * Counts people by their results in all tests. Only valid results within the treatment of the reading window
 * count, and a reference status only where it is positive or negative: all else is as if not done. People
 * without any result, or whose population is not recorded, are set aside.
 */
export function latentPeople(
  tests: readonly ModelTest[],
  treatment: Treatment,
  stratum: string | null,
): LatentPeople {
  const byTest = tests.map(nobody);
  const populations = new Map<string, Map<string, LatentPattern>>();
  const reasons = new Map<Reason, number>();
  let asked = 0;
  let counted = 0;
  for (const pairs of peopleOf(tests)) {
    const known = pairs.find((pair) => pair !== undefined);
    if (known === undefined) continue;
    asked += known.weight;
    const ends = pairs.map((pair, test) => endOf(pair, tests[test] as ModelTest, treatment));
    const group = stratum === null ? EVERYBODY : known.strata[stratum];
    const reactive = ends.map(resultOf);
    const reason = reasonFor(group, reactive);
    if (reason !== null) {
      reasons.set(reason, (reasons.get(reason) ?? 0) + known.weight);
      continue;
    }
    counted += known.weight;
    for (const [test, end] of ends.entries()) (byTest[test] as TestPeople)[end] += known.weight;
    addTo(populations, group as string, reactive, known.weight);
  }
  return {
    asked,
    counted,
    setAside: REASONS.flatMap((reason) => {
      const people = reasons.get(reason);
      return people === undefined ? [] : [{ reason, people }];
    }),
    populations: [...populations]
      .sort(([one], [other]) => (one < other ? -1 : 1))
      .map(([label, patterns]) => ({ label, patterns: sorted(patterns) })),
    byTest,
  };
}

const EVERYBODY = "everybody";

/** Why people are set aside, in the order in which they are told. */
const REASONS = ["no_result", "no_population"] as const;
type Reason = (typeof REASONS)[number];

function nobody(): TestPeople {
  return { reactive: 0, nonreactive: 0, invalid: 0, outsideWindow: 0, indeterminate: 0, notDone: 0 };
}

/** Everybody once, with the pair of each test. Rows of counts are no people to be joined: one set only. */
function* peopleOf(tests: readonly ModelTest[]): Generator<(Pair | undefined)[]> {
  const sets = [...new Set(tests.flatMap(({ set }) => set ?? []))];
  const [first, ...others] = sets;
  if (first === undefined) return;
  const byPerson = new Map(
    others.map((set) => [set, new Map(set.pairs.map((pair) => [pair.person, pair]))] as const),
  );
  const at = (person: string, own: PairedSet, pair: Pair) =>
    tests.map(({ set }) => {
      if (set === own) return pair;
      return set === undefined ? undefined : byPerson.get(set)?.get(person);
    });
  const seen = new Set<string>();
  for (const pair of first.pairs) {
    if (others.length > 0) seen.add(pair.person);
    yield at(pair.person, first, pair);
  }
  for (const set of others) {
    for (const pair of set.pairs) {
      if (seen.has(pair.person)) continue;
      seen.add(pair.person);
      yield at(pair.person, set, pair);
    }
  }
}

function endOf(pair: Pair | undefined, test: ModelTest, treatment: Treatment): keyof TestPeople {
  if (pair === undefined) return "notDone";
  if (test.reference) return REFERENCE_ENDS[pair.reference];
  return RAPID_ENDS[treatedRapid(pair, treatment)];
}

const REFERENCE_ENDS = {
  positive: "reactive",
  negative: "nonreactive",
  indeterminate: "indeterminate",
  not_done: "notDone",
} as const;
const RAPID_ENDS = {
  reactive: "reactive",
  nonreactive: "nonreactive",
  invalid: "invalid",
  outside_window: "outsideWindow",
  not_done: "notDone",
} as const;

function resultOf(end: keyof TestPeople): boolean | null {
  if (end === "reactive") return true;
  return end === "nonreactive" ? false : null;
}

function reasonFor(group: string | null | undefined, reactive: readonly (boolean | null)[]): Reason | null {
  if (reactive.every((result) => result === null)) return "no_result";
  return group == null ? "no_population" : null;
}

function addTo(
  populations: Map<string, Map<string, LatentPattern>>,
  label: string,
  reactive: readonly (boolean | null)[],
  weight: number,
): void {
  const patterns = populations.get(label) ?? new Map<string, LatentPattern>();
  populations.set(label, patterns);
  const key = reactive.map((result) => (result === null ? "?" : result ? "+" : "-")).join("");
  const pattern = patterns.get(key) ?? { reactive, people: 0 };
  patterns.set(key, pattern);
  pattern.people += weight;
}

function sorted(patterns: ReadonlyMap<string, LatentPattern>): LatentPattern[] {
  return [...patterns].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, pattern]) => pattern);
}
