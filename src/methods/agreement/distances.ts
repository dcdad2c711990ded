/** What differences between ratings mean. */
export const SCALES = ["nominal", "ordinal", "interval", "ratio"] as const;
export type Scale = (typeof SCALES)[number];

/**
 * Squared difference of two categories in the sense of Krippendorff's alpha.
 *
 * `nominal` 1 for different ones; `ordinal` ratings between them, each end counting half, squared;
 * `interval` squared difference; `ratio` squared difference over squared sum (values of 0 or more).
 *
 * @param values the categories' values, ascending
 * @param used   how often each was used in comparable ratings (matters for `ordinal`)
 * Source: krippendorff2011
 */
export function distances(scale: Scale, values: readonly number[], used: readonly number[]): number[][] {
  const upTo = runningTotals(used);
  const between = (low: number, high: number) =>
    (upTo[high + 1] ?? 0) - (upTo[low] ?? 0) - ((used[low] ?? 0) + (used[high] ?? 0)) / 2;
  const rules: Readonly<Record<Scale, (low: number, high: number) => number>> = {
    nominal: () => 1,
    ordinal: between,
    interval: (low, high) => (values[high] ?? 0) - (values[low] ?? 0),
    ratio: (low, high) =>
      ((values[high] ?? 0) - (values[low] ?? 0)) / ((values[high] ?? 0) + (values[low] ?? 0)),
  };
  return values.map((_, row) =>
    values.map((__, column) =>
      row === column ? 0 : Math.pow(rules[scale](Math.min(row, column), Math.max(row, column)), 2),
    ),
  );
}

/** Entry `at`: the sum of the first `at` parts. */
function runningTotals(parts: readonly number[]): number[] {
  const totals = [0];
  for (const part of parts) totals.push((totals.at(-1) ?? 0) + part);
  return totals;
}
