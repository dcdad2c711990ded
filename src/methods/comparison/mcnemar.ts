import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";

/** McNemar's test in four forms; all look only at the discordant people. */
export interface McNemar {
  readonly chiSquare: number;
  readonly asymptotic: number;
  readonly correctedChiSquare: number;
  readonly corrected: number;
  readonly exact: number;
  readonly midP: number;
}

/**
 * Are those reactive on the first only as many as those reactive on the second only? p = 1 where nobody
 * is discordant: then nothing speaks for a difference.
 *
 * @param firstOnly  people, whole
 * @param secondOnly people, whole
 * Sources: mcnemar1947 (chi-square, exact); edwards1948 (continuity correction); fagerland2013 (mid-P)
 */
export function mcNemar(firstOnly: number, secondOnly: number): McNemar {
  const discordant = firstOnly + secondOnly;
  if (discordant === 0) {
    return { chiSquare: 0, asymptotic: 1, correctedChiSquare: 0, corrected: 1, exact: 1, midP: 1 };
  }
  const apart = Math.abs(firstOnly - secondOnly);
  const fewer = Math.min(firstOnly, secondOnly);
  const chiSquare = (apart * apart) / discordant;
  const correctedChiSquare = Math.pow(Math.max(0, apart - 1), 2) / discordant;
  const tail = 2 * binomialCdf(fewer, discordant, 0.5, "lower");
  const mass = binomialMass(fewer, discordant, 0.5);
  return {
    chiSquare,
    asymptotic: chiSquareCdf(chiSquare, 1, "upper"),
    correctedChiSquare,
    corrected: chiSquareCdf(correctedChiSquare, 1, "upper"),
    exact: Math.min(1, tail),
    // With as many on each side the two tails overlap in the middle result: half of it goes.
    midP: apart === 0 ? 1 - mass / 2 : tail - mass,
  };
}
