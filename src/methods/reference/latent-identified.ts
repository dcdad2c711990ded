import { type RandomSource, randomStream } from "../../core/random.ts";
import { qrRank } from "../../numeric/qr-rank.ts";
import type { LatentData } from "./latent-data.ts";
import type { LatentLayout } from "./latent-layout.ts";
import { informationRows } from "./latent-likelihood.ts";

/** What is left of an unknown's slope once the others' are taken out, below which it can't be told apart. */
const NOTHING = 1e-6;

/** Counts that are free: patterns less 1 in every group of people with the same tests done. */
export function freeCounts({ groups }: LatentData): number {
  return groups.reduce((sum, { cells }) => sum + cells.length - 1, 0);
}

/**
 * How many unknowns the design can tell apart, whatever the people show: the largest rank of the information
 * matrix at three places drawn at random. Fewer than there are unknowns: no number of people helps.
 *
 * Source: goodman1974
 */
export function rankOfDesign(data: LatentData, layout: LatentLayout): number {
  const random = randomStream(20_803, 0);
  const ranks = [0, 1, 2].map(() => {
    const place = randomPlace(random, data, layout);
    return qrRank(informationRows(place, data, layout), layout.size, NOTHING).rank;
  });
  return Math.max(...ranks);
}

/** The unknowns that the data can't tell from the others at this place; those at a border are left out. */
export function untold(theta: Float64Array, data: LatentData, layout: LatentLayout): number[] {
  const free = [...theta.keys()].filter((place) => Number.isFinite(theta[place]));
  const rows = informationRows(theta, data, layout).map((row) =>
    Float64Array.from(free, (place) => row[place] as number),
  );
  return qrRank(rows, free.length, NOTHING).dependent.map((column) => free[column] as number);
}

/** A place to begin from: better tests than chance, any prevalence, mild dependence. */
export function randomPlace(random: RandomSource, data: LatentData, layout: LatentLayout): Float64Array {
  const theta = new Float64Array(layout.size);
  const between = (least: number, most: number) => {
    const share = least + (most - least) * random();
    return Math.log(share / (1 - share));
  };
  for (let population = 0; population < data.populations; population += 1) {
    theta[layout.prevalence(population)] = between(0.05, 0.95);
  }
  for (let test = 0; test < data.tests; test += 1) {
    theta[layout.reactive(0, test)] = between(0.5, 0.97);
    theta[layout.reactive(1, test)] = between(0.02, 0.4);
  }
  for (const condition of [0, 1]) {
    for (let place = 0; place < layout.dependences; place += 1) {
      const unknown = layout.dependence(condition, place);
      theta[unknown] = data.randomEffect ? between(0.05, 0.6) : 2 * random() - 0.5;
    }
  }
  return theta;
}
