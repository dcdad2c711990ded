import { binomialCdf } from "../../numeric/binomial.ts";
import { mcNemar } from "../comparison/mcnemar.ts";
import { binomialWindow } from "./binomial-window.ts";
import type { Discordance } from "./discordance.ts";

export const MCNEMAR_TESTS = ["mcnemar_mid_p", "mcnemar_exact", "mcnemar"] as const;
export type McNemarTest = (typeof MCNEMAR_TESTS)[number];
const P_VALUES = { mcnemar_mid_p: "midP", mcnemar_exact: "exact", mcnemar: "asymptotic" } as const;

/**
 * The exact power of a test of McNemar's: the probability that it rejects, and in favour of the kit that
 * is truly better, added up over the number of discordant people (binomial) and how they fall on the two
 * kits (binomial given their number). What the discordant people say does not depend on the total, so it is
 * reckoned once for each number of them.
 *
 * @param shares of people whom only the first, or only the second kit judges rightly; not alike
 * @param error  two-sided
 * @returns power at a total
 */
export function mcnemarPower(
  shares: Discordance,
  test: McNemarTest,
  error: number,
): (total: number) => number {
  const discordant = shares.firstOnly + shares.secondOnly;
  const better = Math.max(shares.firstOnly, shares.secondOnly) / discordant;
  /** For each number of discordant people: the fewest for the better kit that reject, and how probable. */
  const fewest = [1];
  const given = [0];
  const rejects = (inFavour: number, people: number) =>
    2 * inFavour > people && mcNemar(inFavour, people - inFavour)[P_VALUES[test]] <= error;
  const extend = (people: number) => {
    // One more against the better kit can raise the border, by one at most; it never falls.
    let border = fewest[people - 1] as number;
    while (border <= people && !rejects(border, people)) border += 1;
    fewest.push(border);
    given.push(border > people ? 0 : binomialCdf(border - 1, people, better, "upper"));
  };
  return (total) => {
    const { from, masses } = binomialWindow(total, Math.min(1, discordant));
    while (given.length < from + masses.length) extend(given.length);
    let power = 0;
    for (let at = 0; at < masses.length; at += 1) {
      power += (masses[at] as number) * (given[from + at] as number);
    }
    return power;
  };
}
