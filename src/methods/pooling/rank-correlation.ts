import { tCdf } from "../../numeric/student-t.ts";

/** Up to so many pairs all orders are gone through: 362,880 for nine. */
const MOST_ENUMERATED = 9;

export interface RankCorrelation {
  readonly value: number;
  /** Two-sided: P(|correlation| at least as large), all orders being equally likely. */
  readonly p: number;
  /** From all orders; otherwise from the t distribution. */
  readonly exact: boolean;
}

/**
 * Spearman's rank correlation, ties given their mean rank.
 * @returns `null` for fewer than three pairs or where one of the two does not vary
 * Source: spearman1904
 */
export function rankCorrelation(pairs: readonly (readonly [number, number])[]): RankCorrelation | null {
  if (pairs.length < 3) return null;
  const first = centred(ranksOf(pairs.map(([one]) => one)));
  const second = centred(ranksOf(pairs.map(([, other]) => other)));
  const scale = Math.sqrt(product(first, first) * product(second, second));
  if (!(scale > 0)) return null;
  const value = Math.max(-1, Math.min(1, product(first, second) / scale));
  if (pairs.length <= MOST_ENUMERATED) {
    return { value, p: shareAsFar(first, second, Math.abs(product(first, second))), exact: true };
  }
  const df = pairs.length - 2;
  const left = (1 - value) * (1 + value);
  const p = left > 0 ? 2 * tCdf(Math.abs(value) * Math.sqrt(df / left), df, "upper") : 0;
  return { value, p: Math.min(1, p), exact: false };
}

function ranksOf(values: readonly number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const same = values.filter((other) => other === value).length;
    return below + (same + 1) / 2;
  });
}

function centred(ranks: readonly number[]): number[] {
  const mean = (ranks.length + 1) / 2;
  return ranks.map((rank) => rank - mean);
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, at) => sum + value * (other[at] as number), 0);
}

/** Of all orders of `second` against `first`, the share with a sum of products at least as far from 0. */
function shareAsFar(first: readonly number[], second: readonly number[], far: number): number {
  // Ranks are multiples of a half: their products of a quarter, exactly.
  const least = far - 1e-9;
  const left = second.slice();
  let asFar = 0;
  let all = 0;
  const visit = (place: number, sum: number): void => {
    if (place === left.length) {
      all += 1;
      if (Math.abs(sum) >= least) asFar += 1;
      return;
    }
    for (let pick = place; pick < left.length; pick += 1) {
      swap(left, place, pick);
      visit(place + 1, sum + (first[place] as number) * (left[place] as number));
      swap(left, place, pick);
    }
  };
  visit(0, 0);
  return asFar / all;
}

function swap(values: number[], one: number, other: number): void {
  [values[one], values[other]] = [values[other] as number, values[one] as number];
}
