import type { BetaPrior } from "./prior-fields.ts";

/**
 * How probable it is after the data that i of the people whom a test found reactive have the condition, and j of the
 * others: at place j (reactive + 1) + i. Adds up to 1.
 */
export interface ConditionTable {
  readonly reactive: number;
  readonly nonreactive: number;
  readonly weights: Float64Array;
}

export interface ExactWeights {
  /** One per test. */
  readonly tables: readonly ConditionTable[];
  /** People with the condition, posterior mean: both reactive, first only, second only, neither. */
  readonly diseased: readonly number[];
  readonly logEvidence: number;
}

/** Both reactive, first only, second only, neither. One test: as if a second were always reactive. */
export type FourCounts = readonly [number, number, number, number];
export interface ExactPriors {
  readonly prevalence: BetaPrior;
  readonly tests: readonly { readonly sensitivity: BetaPrior; readonly specificity: BetaPrior }[];
}

/** Ways to share the people out over the condition. */
export function combinationsOf(counts: FourCounts): number {
  return counts.reduce((product, people) => product * (people + 1), 1);
}

/**
 * Every way to share the people of each pattern out over the condition, with its probability after the data. Given
 * how they are shared out, every unknown has a beta distribution; ways that give the same are added up here.
 */
export function exactWeights(counts: FourCounts, priors: ExactPriors): ExactWeights {
  const parts = partsOf(counts, priors);
  const peak = goThrough(counts, parts, Number.POSITIVE_INFINITY, null);
  const [both, first, second, neither] = counts;
  const sums: Sums = {
    tables: [tableOf(both + first, second + neither), tableOf(both + second, first + neither)],
    diseased: [0, 0, 0, 0],
    total: 0,
  };
  goThrough(counts, parts, peak, sums);
  for (const { weights } of sums.tables) {
    for (let place = 0; place < weights.length; place += 1) {
      weights[place] = (weights[place] as number) / sums.total;
    }
  }
  return {
    tables: sums.tables.slice(0, priors.tests.length),
    diseased: sums.diseased.map((people) => people / sums.total),
    logEvidence: parts.logArrangements + peak + Math.log(sums.total),
  };
}

interface Sums {
  readonly tables: readonly [ConditionTable, ConditionTable];
  readonly diseased: number[];
  total: number;
}

function tableOf(reactive: number, nonreactive: number): ConditionTable {
  return { reactive, nonreactive, weights: new Float64Array((reactive + 1) * (nonreactive + 1)) };
}

/** What a way adds to the log of its weight, by each of the counts it hangs on. */
interface Parts {
  /** log of the ways to choose k of the people of a pattern. */
  readonly chosen: readonly Float64Array[];
  /** By people with the condition in all. */
  readonly present: Float64Array;
  /** By people with the condition among those reactive, for each test. */
  readonly reactive: readonly Float64Array[];
  /** The same among those not reactive. */
  readonly nonreactive: readonly Float64Array[];
  /** log of the orders in which these counts could have come. */
  readonly logArrangements: number;
}

function partsOf(counts: FourCounts, { prevalence, tests }: ExactPriors): Parts {
  const people = counts.reduce((sum, count) => sum + count, 0);
  const [both, first, second] = counts;
  const factorial = rise(1, people);
  const at = (table: Float64Array, place: number) => table[place] as number;
  const present = rise(prevalence.alpha, people);
  const absent = rise(prevalence.beta, people);
  const all = rise(prevalence.alpha + prevalence.beta, people);
  const totals = tests.map(({ sensitivity, specificity }) => [
    rise(sensitivity.alpha + sensitivity.beta, people),
    rise(specificity.alpha + specificity.beta, people),
  ]);
  const byPresent = Float64Array.from({ length: people + 1 }, (_, k) =>
    totals.reduce(
      (sum, [ill, well]) => sum - at(ill as Float64Array, k) - at(well as Float64Array, people - k),
      at(present, k) + at(absent, people - k) - at(all, people),
    ),
  );
  const sides = [both + first, both + second].map((reactive, test) => {
    const prior = tests[test];
    return {
      reactive: togetherWith(prior?.sensitivity.alpha, prior?.specificity.beta, reactive),
      nonreactive: togetherWith(prior?.sensitivity.beta, prior?.specificity.alpha, people - reactive),
    };
  });
  return {
    chosen: counts.map((count) =>
      Float64Array.from(
        { length: count + 1 },
        (_, k) => at(factorial, count) - at(factorial, k) - at(factorial, count - k),
      ),
    ),
    present: byPresent,
    reactive: sides.map((side) => side.reactive),
    nonreactive: sides.map((side) => side.nonreactive),
    logArrangements: counts.reduce((sum, count) => sum - at(factorial, count), at(factorial, people)),
  };
}

/** log of Gamma(shape + k) / Gamma(shape), k = 0 … most: a sum of logs, exact for large shapes as well. */
function rise(shape: number, most: number): Float64Array {
  const table = new Float64Array(most + 1);
  for (let k = 0; k < most; k += 1) table[k + 1] = (table[k] as number) + Math.log(shape + k);
  return table;
}

/** k with the condition beside people - k without; 0 where there is no such test. */
function togetherWith(ill: number | undefined, well: number | undefined, people: number): Float64Array {
  if (ill === undefined || well === undefined) return new Float64Array(people + 1);
  const [with_, without] = [rise(ill, people), rise(well, people)];
  return with_.map((log, k) => log + (without[people - k] as number));
}

/** Once to find the largest log weight (`sums` is null), once to add up. */
function goThrough(counts: FourCounts, parts: Parts, peak: number, sums: Sums | null): number {
  const [both, first, second, neither] = counts;
  const [inBoth, inFirst, inSecond, inNeither] = parts.chosen as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const [reactiveOne, reactiveTwo] = parts.reactive as [Float64Array, Float64Array];
  const [otherOne, otherTwo] = parts.nonreactive as [Float64Array, Float64Array];
  const across = [both + first + 1, both + second + 1] as const;
  let highest = Number.NEGATIVE_INFINITY;
  for (let a = 0; a <= both; a += 1) {
    for (let b = 0; b <= first; b += 1) {
      const upper = (inBoth[a] as number) + (inFirst[b] as number) + (reactiveOne[a + b] as number);
      for (let c = 0; c <= second; c += 1) {
        const middle = upper + (inSecond[c] as number) + (reactiveTwo[a + c] as number);
        for (let d = 0; d <= neither; d += 1) {
          const log =
            middle +
            (inNeither[d] as number) +
            (otherOne[c + d] as number) +
            (otherTwo[b + d] as number) +
            (parts.present[a + b + c + d] as number);
          if (sums === null) {
            if (log > highest) highest = log;
            continue;
          }
          const weight = Math.exp(log - peak);
          sums.total += weight;
          add(sums.tables[0].weights, (c + d) * across[0] + a + b, weight);
          add(sums.tables[1].weights, (b + d) * across[1] + a + c, weight);
          addPeople(sums.diseased, a, b, c, d, weight);
        }
      }
    }
  }
  return highest;
}

function add(table: Float64Array, place: number, weight: number): void {
  table[place] = (table[place] as number) + weight;
}

function addPeople(sums: number[], a: number, b: number, c: number, d: number, weight: number): void {
  sums[0] = (sums[0] as number) + a * weight;
  sums[1] = (sums[1] as number) + b * weight;
  sums[2] = (sums[2] as number) + c * weight;
  sums[3] = (sums[3] as number) + d * weight;
}

/** The same with the condition present and absent, reactive and not, exchanged: what is a specificity becomes a sensitivity. */
export function mirroredTable({ reactive, nonreactive, weights }: ConditionTable): ConditionTable {
  const turned = tableOf(nonreactive, reactive);
  for (let j = 0; j <= nonreactive; j += 1) {
    for (let i = 0; i <= reactive; i += 1) {
      const place = (reactive - i) * (nonreactive + 1) + (nonreactive - j);
      turned.weights[place] = weights[j * (reactive + 1) + i] as number;
    }
  }
  return turned;
}

/** Weights below this are let go: all of them together are less than 1e-11 of the whole. */
export function nothingOf(weights: Float64Array): number {
  return 1e-11 / weights.length;
}
