import type { Pair, PairedSet } from "../records/model.ts";
import { type FourfoldCounts, tally } from "../records/tallies.ts";
import { type Treatment, whereTo } from "../records/treatment.ts";

/** People of one reference status by whether the two sides were right. */
export interface RightCounts {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

/** Two sides of a comparison, counted under one treatment of invalid and untimely results. */
export interface ComparedPeople {
  /** People in the fourfold tables of both sides, or of one only. */
  readonly people: { readonly both: number; readonly firstOnly: number; readonly secondOnly: number };
  /** Those on both sides, by reference status. */
  readonly onBoth: { readonly positive: RightCounts; readonly negative: RightCounts };
  /** The fourfold tables of those on one side only: different people. */
  readonly onOne: { readonly first: FourfoldCounts; readonly second: FourfoldCounts };
}

/**
 * Holds the analysed people of two sets against each other, person by person. Counts name nobody: all
 * their people are different ones.
 */
export function comparePeople(
  first: PairedSet,
  second: PairedSet,
  treatment: Treatment,
  named: boolean,
): ComparedPeople {
  const there = new Map<string, Pair>();
  if (named) for (const pair of second.pairs) if (rightness(pair, treatment)) there.set(pair.person, pair);
  const onBoth = { positive: nobody(), negative: nobody() };
  const shared = new Set<string>();
  for (const pair of first.pairs) {
    const here = rightness(pair, treatment);
    const partner = there.get(pair.person);
    const other = partner === undefined ? null : rightness(partner, treatment);
    if (here === null || other === null || here.reference !== other.reference) continue;
    shared.add(pair.person);
    onBoth[here.reference][crossing(here.right, other.right)] += pair.weight;
  }
  const apart = (pair: Pair) => !shared.has(pair.person);
  const [alone, otherAlone] = [tally(first, treatment, apart), tally(second, treatment, apart)];
  return {
    people: {
      both: sumOf(onBoth.positive) + sumOf(onBoth.negative),
      firstOnly: alone.analysed,
      secondOnly: otherAlone.analysed,
    },
    onBoth,
    onOne: { first: alone.counts, second: otherAlone.counts },
  };
}

function nobody() {
  return { both: 0, firstOnly: 0, secondOnly: 0, neither: 0 };
}

function sumOf({ both, firstOnly, secondOnly, neither }: RightCounts): number {
  return both + firstOnly + secondOnly + neither;
}

function crossing(here: boolean, there: boolean): keyof RightCounts {
  if (here) return there ? "both" : "firstOnly";
  return there ? "secondOnly" : "neither";
}

/** `null` for people who are in no fourfold table. */
function rightness(
  pair: Pair,
  treatment: Treatment,
): { readonly reference: "positive" | "negative"; readonly right: boolean } | null {
  switch (whereTo(pair, treatment)) {
    case "true_positive":
      return { reference: "positive", right: true };
    case "false_negative":
      return { reference: "positive", right: false };
    case "true_negative":
      return { reference: "negative", right: true };
    case "false_positive":
      return { reference: "negative", right: false };
    default:
      return null;
  }
}
