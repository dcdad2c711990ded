import type { LatentData } from "./latent-data.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { summed } from "./latent-likelihood.ts";
import { classTables } from "./latent-tables.ts";

const MOST_ROUNDS = 300;

/**
 * Steps of expectation and maximisation from a starting place: people are shared out over the two classes (and
 * over the results of tests not done), then every share is counted anew. The likelihood never falls. With a
 * random effect the shares are counted as they are without it, its size being left alone: a rough start.
 *
 * Source: dempster1977
 */
export function expectationMaximisation(
  start: Float64Array,
  data: LatentData,
  layout: LatentLayout,
): Float64Array {
  let theta = start;
  let before = Number.NEGATIVE_INFINITY;
  const rounds = data.randomEffect ? 15 : MOST_ROUNDS;
  for (let round = 0; round < rounds; round += 1) {
    const { next, logLikelihood } = oneRound(theta, data, layout);
    if (Math.abs(logLikelihood - before) < 1e-9 * (1 + Math.abs(logLikelihood))) return theta;
    theta = next;
    before = logLikelihood;
  }
  return theta;
}

function oneRound(theta: Float64Array, data: LatentData, layout: LatentLayout) {
  const tables = classTables(theta, data, layout);
  const shared = tables.map(({ cells }) => new Float64Array(cells.length));
  const present = new Float64Array(data.populations);
  const absent = new Float64Array(data.populations);
  let logLikelihood = 0;
  for (const { population, cells } of data.groups) {
    const prevalence = fromLogit(theta[layout.prevalence(population)] as number);
    for (const { people, complete } of cells) {
      if (people === 0) continue;
      const parts = [prevalence, 1 - prevalence].map(
        (share, condition) => share * summed((tables[condition] as (typeof tables)[0]).cells, complete),
      );
      const total = (parts[0] as number) + (parts[1] as number);
      if (!(total > 0)) continue;
      logLikelihood += people * Math.log(total);
      add(present, population, (people * (parts[0] as number)) / total);
      add(absent, population, (people * (parts[1] as number)) / total);
      for (const [condition, share] of [prevalence, 1 - prevalence].entries()) {
        const { cells: chances } = tables[condition] as (typeof tables)[0];
        for (let k = 0; k < complete.length; k += 1) {
          const x = complete[k] as number;
          add(shared[condition] as Float64Array, x, (people * share * (chances[x] as number)) / total);
        }
      }
    }
  }
  return { logLikelihood, next: countedAnew(theta, data, layout, { present, absent, shared }) };
}

interface Shared {
  readonly present: Float64Array;
  readonly absent: Float64Array;
  readonly shared: readonly Float64Array[];
}

function countedAnew(
  theta: Float64Array,
  data: LatentData,
  layout: LatentLayout,
  counts: Shared,
): Float64Array {
  const next = Float64Array.from(theta);
  const put = (place: number, counted: number, against: number) => {
    if (counted + against > 0) next[place] = Math.log(counted / against);
  };
  for (let population = 0; population < data.populations; population += 1) {
    put(
      layout.prevalence(population),
      counts.present[population] as number,
      counts.absent[population] as number,
    );
  }
  counts.shared.forEach((table, condition) => {
    for (let test = 0; test < data.tests; test += 1) {
      const [without, reactive] = bySum(table, [test]);
      put(layout.reactive(condition, test), reactive as number, without as number);
    }
    data.pairs.forEach((pair, place) => {
      const [neither = 0, first = 0, second = 0, both = 0] = bySum(table, pair);
      const odds = Math.log((both * neither) / (first * second));
      if (!Number.isNaN(odds)) next[layout.dependence(condition, place)] = Math.min(9, Math.max(-9, odds));
    });
  });
  return next;
}

/** The table added up over all tests but these. */
function bySum(table: Float64Array, tests: readonly number[]): number[] {
  const sums = new Array<number>(Math.pow(2, tests.length)).fill(0);
  table.forEach((people, x) => {
    const place = tests.reduce((sum, test, bit) => sum + (((x >> test) & 1) << bit), 0);
    sums[place] = (sums[place] as number) + people;
  });
  return sums;
}

function add(values: Float64Array, place: number, more: number): void {
  values[place] = (values[place] as number) + more;
}
