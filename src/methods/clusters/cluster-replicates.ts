import { type RandomSource, randomStream } from "../../core/random.ts";
import type { Design } from "./compared-pair.ts";
import type { ClusterCounts } from "./fields.ts";

/**
 * Bootstrap replicates number `from` up to, not including, `to` of a proportion over clusters: each draws
 * as many whole clusters as there are, with replacement, and takes all events over all observations.
 *
 * Replicate number r has the random stream (seed, r) to itself: how the numbers are split over calls or
 * threads changes nothing. Plain data in and out, so that it can run in a worker.
 *
 * @returns one number a replicate; NaN where no cluster drawn had an observation
 */
export function clusterReplicates(
  clusters: readonly ClusterCounts[],
  from: number,
  to: number,
  seed: number,
): Float64Array {
  const drawn = new Drawn(clusters);
  return replicates(from, to, seed, (random) => drawn.share(random));
}

/**
 * The same of the difference of two proportions, first minus second. Under `same`, entry i of both lists
 * is one cluster and both sides are drawn together; under `separate` each list is drawn by itself.
 */
export function differenceReplicates(
  first: readonly ClusterCounts[],
  second: readonly ClusterCounts[],
  design: Design,
  from: number,
  to: number,
  seed: number,
): Float64Array {
  const one = new Drawn(first);
  const other = new Drawn(second);
  if (design === "separate") {
    return replicates(from, to, seed, (random) => one.share(random) - other.share(random));
  }
  return replicates(from, to, seed, (random) => one.differenceTogether(other, random));
}

function replicates(
  from: number,
  to: number,
  seed: number,
  statistic: (random: RandomSource) => number,
): Float64Array {
  const found = new Float64Array(to - from);
  for (let number = from; number < to; number += 1) {
    found[number - from] = statistic(randomStream(seed, number));
  }
  return found;
}

/** Counts and totals of clusters, laid out for drawing. */
class Drawn {
  readonly counts: Float64Array;
  readonly totals: Float64Array;

  constructor(clusters: readonly ClusterCounts[]) {
    this.counts = Float64Array.from(clusters, ({ count }) => count);
    this.totals = Float64Array.from(clusters, ({ total }) => total);
  }

  share(random: RandomSource): number {
    const { counts, totals } = this;
    const size = counts.length;
    let [count, total] = [0, 0];
    for (let draw = 0; draw < size; draw += 1) {
      const at = Math.floor(random() * size);
      count += counts[at] as number;
      total += totals[at] as number;
    }
    return count / total;
  }

  differenceTogether(other: Drawn, random: RandomSource): number {
    const size = this.counts.length;
    let [count, total, otherCount, otherTotal] = [0, 0, 0, 0];
    for (let draw = 0; draw < size; draw += 1) {
      const at = Math.floor(random() * size);
      count += this.counts[at] as number;
      total += this.totals[at] as number;
      otherCount += other.counts[at] as number;
      otherTotal += other.totals[at] as number;
    }
    return count / total - otherCount / otherTotal;
  }
}
