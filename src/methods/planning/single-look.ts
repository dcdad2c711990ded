import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";

/** What is wanted of a study: the two proportions and the two probabilities. */
export interface Demands {
  readonly unacceptable: number;
  readonly expected: number;
  readonly error: number;
  readonly power: number;
}

/** One look at the end: so many right or more, and the kit passes. */
export interface SingleLook {
  readonly total: number;
  readonly passFrom: number;
  readonly error: number;
  readonly power: number;
}

/** The last places of a sum do not turn a probability that is just reached into one that is not. */
const JUST = 1e-12;
export const withinError = (error: number, allowed: number) => error <= allowed * (1 + JUST);
export const reachesPower = (power: number, wanted: number) => power >= wanted * (1 - JUST);

/**
 * The best one-look rule of every total from 1 on, with the most power that any rule on that many people
 * could have: that of the most powerful test, which decides its border case by lot.
 */
export function* singleLooks(
  { unacceptable, expected, error }: Demands,
  horizon: number,
): Generator<SingleLook & { readonly mostPower: number }> {
  let passFrom = 1;
  for (let total = 1; total <= horizon; total += 1) {
    let size = binomialCdf(passFrom - 1, total, unacceptable, "upper");
    if (!withinError(size, error)) {
      passFrom += 1;
      size = binomialCdf(passFrom - 1, total, unacceptable, "upper");
    }
    const power = binomialCdf(passFrom - 1, total, expected, "upper");
    const left = Math.max(0, error - size) / binomialMass(passFrom - 1, total, unacceptable);
    const mostPower = power + Math.min(1, left) * binomialMass(passFrom - 1, total, expected);
    yield { total, passFrom, error: size, power, mostPower };
  }
}

/** The smallest total with which one look at the end reaches the power; `null` up to the horizon. */
export function smallestSingle(demands: Demands, horizon: number): SingleLook | null {
  for (const { mostPower: _, ...look } of singleLooks(demands, horizon)) {
    if (look.passFrom <= look.total && reachesPower(look.power, demands.power)) return look;
  }
  return null;
}

/** Totals below this one can't reach the power by any rule at all; `null` up to the horizon. */
export function leastTotal(demands: Demands, horizon: number): number | null {
  for (const { total, mostPower } of singleLooks(demands, horizon)) {
    if (mostPower >= demands.power * (1 - 1e-9)) return total;
  }
  return null;
}
