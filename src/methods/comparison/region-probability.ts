import { binomialMass } from "../../numeric/binomial.ts";
import type { ResultRegion } from "./exact-region.ts";

/** Probability of a region of results at the two true proportions. */
export type RegionProbability = (first: number, second: number) => number;

/**
 * Adds the probabilities of all results in a region. Work space is kept between calls: time grows with
 * the number of people, not with the number of results.
 */
export function regionProbability(
  region: ResultRegion,
  firstTotal: number,
  secondTotal: number,
): RegionProbability {
  const { below, from } = region;
  const firstMass = new Float64Array(firstTotal + 1);
  const secondMass = new Float64Array(secondTotal + 1);
  /** P(second count < k) and P(second count >= k), each summed from its own end. */
  const under = new Float64Array(secondTotal + 2);
  const over = new Float64Array(secondTotal + 2);
  const twoBorders = from.some((border) => border <= secondTotal);
  return (first, second) => {
    fillMasses(firstMass, firstTotal, first);
    fillMasses(secondMass, secondTotal, second);
    let sum = 0;
    for (let at = 0; at <= secondTotal; at += 1) {
      sum += secondMass[at] as number;
      under[at + 1] = sum;
    }
    let total = 0;
    if (!twoBorders) {
      for (let at = 0; at <= firstTotal; at += 1) {
        total += (firstMass[at] as number) * (under[below[at] as number] as number);
      }
      return Math.min(1, total);
    }
    sum = 0;
    for (let at = secondTotal; at >= 0; at -= 1) {
      sum += secondMass[at] as number;
      over[at] = sum;
    }
    for (let at = 0; at <= firstTotal; at += 1) {
      const outside = (under[below[at] as number] as number) + (over[from[at] as number] as number);
      total += (firstMass[at] as number) * outside;
    }
    return Math.min(1, total);
  };
}

/** Masses smaller than this are left 0: they add nothing, and reckoning with the tiniest numbers is slow. */
const NOTHING = 1e-290;

/** Binomial probabilities, from a most probable count outwards. */
function fillMasses(masses: Float64Array, total: number, share: number): void {
  masses.fill(0);
  const mode = Math.min(total, Math.floor((total + 1) * share));
  const peak = binomialMass(mode, total, share);
  masses[mode] = peak;
  const odds = share / (1 - share);
  let mass = peak;
  for (let at = mode; at < total && mass > NOTHING; at += 1) {
    mass *= ((total - at) / (at + 1)) * odds;
    masses[at + 1] = mass;
  }
  mass = peak;
  for (let at = mode; at > 0 && mass > NOTHING; at -= 1) {
    mass *= at / (total - at + 1) / odds;
    masses[at - 1] = mass;
  }
}
