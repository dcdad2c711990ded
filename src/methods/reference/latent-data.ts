import { InputError } from "../../core/input-error.ts";
import type { LatentInput } from "./latent-fields.ts";

/** One pattern of results that people with the same tests done could show. */
export interface LatentCell {
  /** Bit t is 1 where test t was reactive. */
  readonly results: number;
  readonly people: number;
  /** The complete patterns of all tests that agree with it. */
  readonly complete: Int32Array;
}

/** The people of one population who had the same tests done. */
export interface LatentGroup {
  readonly population: number;
  /** Bit t is 1 where test t was done. */
  readonly done: number;
  readonly people: number;
  /** Every pattern of the tests done, seen or not. */
  readonly cells: readonly LatentCell[];
}

export interface LatentData {
  readonly tests: number;
  readonly populations: number;
  readonly groups: readonly LatentGroup[];
  /** Pairs of tests, by place, whose errors may go together. */
  readonly pairs: readonly (readonly [number, number])[];
  readonly randomEffect: boolean;
}

/**
 * The counts, grouped by population and by the tests done; groups without people are left out.
 * @throws InputError where a pattern has the wrong length or no result, or a pair names no tests of the list
 */
export function latentData(input: LatentInput): LatentData {
  const tests = input.tests.length;
  const repeated = input.tests.findIndex((name, place) => input.tests.indexOf(name) < place);
  if (repeated >= 0) {
    throw new InputError(["input", "tests", repeated], "a name not used before", input.tests[repeated]);
  }
  const counts = new Map<number, Map<number, number>>();
  input.populations.forEach(({ patterns }, population) => {
    patterns.forEach(({ reactive, people }, place) => {
      const { done, results } = bitsOf(reactive, tests, [
        "input",
        "populations",
        population,
        "patterns",
        place,
        "reactive",
      ]);
      const key = population * Math.pow(2, tests) + done;
      const group = counts.get(key) ?? new Map<number, number>();
      group.set(results, (group.get(results) ?? 0) + people);
      counts.set(key, group);
    });
  });
  const groups = [...counts].sort(([a], [b]) => a - b).map(([key, seen]) => groupOf(key, seen, tests));
  return {
    tests,
    populations: input.populations.length,
    groups: groups.filter(({ people }) => people > 0),
    pairs: pairsOf(input),
    randomEffect: input.dependence.kind === "random_effect",
  };
}

function bitsOf(reactive: readonly (boolean | null)[], tests: number, place: (string | number)[]) {
  if (reactive.length !== tests) throw new InputError(place, `${tests} results, one per test`, reactive);
  if (reactive.every((result) => result === null)) {
    throw new InputError(place, "one result or more that is not null", reactive);
  }
  let done = 0;
  let results = 0;
  reactive.forEach((result, test) => {
    if (result !== null) done |= 1 << test;
    if (result === true) results |= 1 << test;
  });
  return { done, results };
}

function groupOf(key: number, seen: ReadonlyMap<number, number>, tests: number): LatentGroup {
  const done = key % Math.pow(2, tests);
  const every = Array.from({ length: Math.pow(2, tests) }, (_, pattern) => pattern);
  const cells = every
    .filter((pattern) => (pattern & done) === pattern)
    .map((results) => ({
      results,
      people: seen.get(results) ?? 0,
      complete: Int32Array.from(every.filter((pattern) => (pattern & done) === results)),
    }));
  const people = cells.reduce((sum, cell) => sum + cell.people, 0);
  return { population: Math.floor(key / Math.pow(2, tests)), done, people, cells };
}

function pairsOf({ tests, dependence }: LatentInput): (readonly [number, number])[] {
  if (dependence.kind !== "pairs") return [];
  const used = new Set<string>();
  return dependence.pairs.map(({ first, second }, place) => {
    for (const [side, name] of Object.entries({ first, second })) {
      const path = ["input", "dependence", "pairs", place, side];
      if (!tests.includes(name)) throw new InputError(path, `one of ${tests.join(", ")}`, name);
      if (used.has(name)) throw new InputError(path, "a test that stands in no other place of a pair", name);
      used.add(name);
    }
    return [tests.indexOf(first), tests.indexOf(second)] as const;
  });
}
