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
  readonly places: Uint32Array;

  constructor(clusters: readonly ClusterCounts[]) {
    this.counts = Float64Array.from(clusters, ({ count }) => count);
    this.totals = Float64Array.from(clusters, ({ total }) => total);
    this.places = new Uint32Array(clusters.length);
  }

  share(random: RandomSource): number {
    drawPlaces(this.places, random);
    return this.shareAt(this.places);
  }

  differenceTogether(other: Drawn, random: RandomSource): number {
    drawPlaces(this.places, random);
    return this.shareAt(this.places) - other.shareAt(this.places);
  }

  private shareAt(places: Uint32Array): number {
    const { counts, totals } = this;
    let [count, total] = [0, 0];
    for (let draw = 0; draw < places.length; draw += 1) {
      const at = places[draw] as number;
      count += counts[at] as number;
      total += totals[at] as number;
    }
    return count / total;
  }
}

/** So many places that two fit into the 53 bits of one draw, with 21 bits or more to spare. */
const MOST_FOR_TWO = 2 ** 16;

/** As many places as there are, each from all of them. One random number serves for two, where it can. */
function drawPlaces(places: Uint32Array, random: RandomSource): void {
  const size = places.length;
  const step = size <= MOST_FOR_TWO ? 2 : 1;
  for (let draw = 0; draw < size; draw += step) {
    const scaled = random() * size;
    const at = Math.floor(scaled);
    places[draw] = at;
    if (step === 2 && draw + 1 < size) places[draw + 1] = Math.floor((scaled - at) * size);
  }
}
