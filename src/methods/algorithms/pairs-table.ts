import { InputError } from "../../core/input-error.ts";
import { bivariateNormalCdf } from "../../numeric/bivariate-normal.ts";
import { normalOrthant } from "../../numeric/orthant.ts";
import { trivariateNormalCdf } from "../../numeric/trivariate-normal.ts";
import { twoDoublesCdf } from "../../numeric/two-doubles.ts";
import { holdTogether, type LatentPairs, latentCorrelations, latentPairs } from "./latent-pairs.ts";
import type { PreparedPairs } from "./prepared-dependence.ts";

type Matrix = readonly (readonly number[])[];

const MOST_RUNS = 5;
/** Variables tied closer than this are left to the general routine. */
const NEARLY_TIED = 1 - 1e-9;

/**
 * Probabilities of all result patterns under stated error correlations. One or two runs: exactly, by the
 * covariance. Three to five: normal variables behind the results, with thresholds that keep each share and
 * correlations that keep each phi; every set of runs all showing their rarer result has an orthant
 * probability, and the patterns follow by inclusion and exclusion, so that shares and pairs are kept exactly.
 * Correlations that can't hold together are all drawn towards 0 until they can (`jointOf` refuses them).
 *
 * @throws InputError for a kit run twice without a pair of its own, and for more than five runs
 */
export function pairsTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedPairs,
  into: Float64Array,
): Float64Array {
  if (kits.length > MOST_RUNS) {
    throw new InputError(
      ["input", "dependence", "kind"],
      `shared, as a path has more than ${MOST_RUNS} valid runs`,
      `pairs, and ${kits.length} runs`,
    );
  }
  const latent = latentPairs(kits, reactive, model);
  const { shares, covariances } = latent;
  into[0] = 1;
  for (let run = 0; run < shares.length; run += 1) {
    const share = shares[run] as number;
    into[1 << run] = share;
    for (let other = 0; other < run; other += 1) {
      const covariance = covariances[run]?.[other] as number;
      into[(1 << run) | (1 << other)] = share * (shares[other] as number) + covariance;
    }
  }
  if (shares.length > 2) fillLargerSets(kits, latent, model, into);
  return patterns(shares.length, latent.flips, into);
}

function fillLargerSets(
  kits: readonly number[],
  latent: LatentPairs,
  model: PreparedPairs,
  into: Float64Array,
): void {
  const stated = latentCorrelations(kits, latent, model);
  const possible = holdTogether(stated);
  const correlations = possible ? stated : drawnTogether(stated);
  const { thresholds } = latent;
  if (kits.length === 3 && possible) {
    into[7] = allOfThree(thresholds, correlations);
    return;
  }
  if (possible && twiceEach(kits) && untied(thresholds, correlations)) {
    fillTwiceEach(thresholds, correlations, into);
    return;
  }
  for (let set = 0; set < 1 << kits.length; set += 1) {
    const runs = kits.map((_, run) => run).filter((run) => (set >> run) & 1);
    if (runs.length > 2) into[set] = allRarer(runs, thresholds, correlations);
    if (runs.length === 2 && !possible) {
      const [first, second] = runs as [number, number];
      into[set] = bivariateNormalCdf(
        thresholds[first] as number,
        thresholds[second] as number,
        correlations[first]?.[second] as number,
      );
    }
  }
}

/** Whether two kits are run twice each, as where people come back. */
function twiceEach([one, again, other, last, more]: readonly number[]): boolean {
  return one === again && other === last && other !== undefined && more === undefined;
}

function untied(thresholds: readonly number[], correlations: Matrix): boolean {
  return (
    thresholds.every(Number.isFinite) &&
    correlations.every((row, run) =>
      row.every((entry, other) => run === other || Math.abs(entry) < NEARLY_TIED),
    )
  );
}

/** Sets of three and four runs of two kits, twice each: runs of one kit are alike. */
function fillTwiceEach(thresholds: readonly number[], correlations: Matrix, into: Float64Array): void {
  const [x, , y] = thresholds as [number, number, number];
  const [ofX, across] = [correlations[0]?.[1] as number, correlations[0]?.[2] as number];
  const ofY = correlations[2]?.[3] as number;
  into[0b0111] = trivariateNormalCdf(x, x, y, ofX, across, across);
  into[0b1011] = into[0b0111] as number;
  into[0b1101] = trivariateNormalCdf(x, y, y, across, across, ofY);
  into[0b1110] = into[0b1101] as number;
  into[0b1111] = twoDoublesCdf(x, y, ofX, ofY, across);
}

/** The probability that all runs of a set, three or more, show their rarer result. */
function allRarer(runs: readonly number[], thresholds: readonly number[], correlations: Matrix): number {
  const borders = runs.map((run) => thresholds[run] as number);
  const own = runs.map((run) => runs.map((other) => correlations[run]?.[other] as number));
  return runs.length === 3 ? allOfThree(borders, own) : normalOrthant(borders, own);
}

function allOfThree(thresholds: readonly number[], correlations: Matrix): number {
  const [x, y, z] = thresholds as [number, number, number];
  const [[, xy, xz], [, , yz]] = correlations as [[number, number, number], [number, number, number]];
  const simple =
    Math.abs(xy) < NEARLY_TIED &&
    Math.abs(xz) < NEARLY_TIED &&
    Math.abs(yz) < NEARLY_TIED &&
    Number.isFinite(x + y + z);
  return simple ? trivariateNormalCdf(x, y, z, xy, xz, yz) : normalOrthant(thresholds, correlations);
}

/** The largest share of impossible correlations that is possible. */
function drawnTogether(stated: Matrix): Matrix {
  let low = 0;
  let high = 1;
  const shrunk = (share: number) =>
    stated.map((row, run) => row.map((entry, other) => (run === other ? 1 : share * entry)));
  for (let step = 0; step < 40; step += 1) {
    const middle = (low + high) / 2;
    if (holdTogether(shrunk(middle))) low = middle;
    else high = middle;
  }
  return shrunk(low);
}

/** From "all of a set show their rarer result" to "these do, the others don't", then to reactive or not. */
function patterns(runs: number, flips: number, into: Float64Array): Float64Array {
  const size = 1 << runs;
  for (let bit = 1; bit < size; bit <<= 1) {
    for (let set = 0; set < size; set += 1) {
      if ((set & bit) === 0) into[set] = (into[set] as number) - (into[set | bit] as number);
    }
  }
  for (let set = 0; set < size; set += 1) into[set] = Math.max(0, into[set] as number);
  for (let set = 0; set < size; set += 1) {
    const flipped = set ^ flips;
    if (flipped <= set) continue;
    const kept = into[set] as number;
    into[set] = into[flipped] as number;
    into[flipped] = kept;
  }
  return into;
}
