import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { pairedScore } from "../comparison/paired-score.ts";
import { binomialWindow } from "./binomial-window.ts";
import type { Discordance } from "./discordance.ts";

/**
 * The exact power to show that the first kit is no worse than the second by the margin: the probability that
 * the lower limit of the score interval (Tango) of first minus second is at least minus the margin.
 *
 * Added up over the number of discordant people; given their number, the fewest for the first kit that do
 * rise by one or none with each further discordant person, and so does the probability of so many.
 *
 * @param shares of people whom only the first, or only the second kit judges rightly
 * @param level  of the two-sided interval
 * @returns power at a total
 */
export function pairedMarginPower(
  shares: Discordance,
  margin: number,
  level: number,
): (total: number) => number {
  const discordant = Math.min(1, shares.firstOnly + shares.secondOnly);
  const forFirst = discordant === 0 ? 0 : Math.min(1, shares.firstOnly / discordant);
  const z = normalQuantile((1 - level) / 2, "upper");
  // The lower limit is the difference at which the score statistic is z: it reaches the margin if the
  // statistic there is z or more.
  const reaches: Reaches = (firstOnly, secondOnly, people) =>
    pairedScore({ both: 0, firstOnly, secondOnly, neither: people - firstOnly - secondOnly }, -margin) >= z;
  return (total) => {
    const { from, masses } = binomialWindow(total, discordant);
    const walk = tailWalk(from, forFirst, fewestFor(from, total, reaches));
    let power = (masses[0] as number) * walk.tail;
    for (let at = 1; at < masses.length; at += 1) {
      const people = from + at;
      const raised = walk.border > people || !reaches(walk.border, people - walk.border, total);
      walk.onePersonMore(raised);
      power += (masses[at] as number) * walk.tail;
    }
    return power;
  };
}

/** Whether results with so many for one kit only reach the margin: for the first, for the second, of all. */
type Reaches = (firstOnly: number, secondOnly: number, people: number) => boolean;

/** Fewest for the first kit among so many discordant people that reach the margin; one more than all if none. */
function fewestFor(discordant: number, people: number, reaches: Reaches): number {
  let low = 0;
  let high = discordant + 1;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (reaches(middle, discordant - middle, people)) high = middle;
    else low = middle + 1;
  }
  return high;
}

/** Masses below this are reckoned anew: steps from the tiniest numbers would stay 0. */
const TINY = 1e-280;

/** P(as many for the first kit as the border, or more), carried along as people join one by one. */
function tailWalk(start: number, share: number, first: number) {
  let people = start;
  let border = first;
  let tail = binomialCdf(border - 1, people, share, "upper");
  /** Probability of exactly one fewer than the border. */
  let under = binomialMass(border - 1, people, share);
  return {
    get border() {
      return border;
    },
    get tail() {
      return tail;
    },
    onePersonMore(raised: boolean) {
      tail += share * under;
      people += 1;
      if (under < TINY || border === 0) under = binomialMass(raised ? border : border - 1, people, share);
      else if (raised) under *= (people * share) / border;
      else under *= (people * (1 - share)) / (people - border + 1);
      if (raised) {
        tail = Math.max(0, tail - under);
        border += 1;
      }
    },
  };
}
