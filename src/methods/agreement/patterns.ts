import { sum } from "./square-shares.ts";
import type { Matrix } from "./weights.ts";

/** Items that got the same ratings, whoever gave them. */
export interface RatingPattern {
  /** How many readers chose each category. */
  readonly counts: readonly number[];
  /** Ratings of such an item: the sum of the counts. */
  readonly ratings: number;
  /** How many items have this pattern. */
  readonly items: number;
}

function patternOf(counts: readonly number[], items: number): RatingPattern {
  return { counts, ratings: sum(counts), items };
}

/** Patterns of a square table of two readers: one for each pair of categories that occurs. */
export function patternsOfTable(table: Matrix): RatingPattern[] {
  return table.flatMap((row, first) =>
    row.flatMap((items, second) => {
      if (items === 0) return [];
      const counts = table.map((_, category) => Number(category === first) + Number(category === second));
      return [patternOf(counts, items)];
    }),
  );
}

/** The distinct patterns of a list of items. */
export interface GroupedPatterns {
  readonly patterns: readonly RatingPattern[];
  /** Items rated at least once. */
  readonly rated: number;
}

/**
 * @param rows       one row of category indices per item; `null` where a reader did not rate it
 * @param categories number of categories
 */
export function groupPatterns(
  rows: readonly (readonly (number | null)[])[],
  categories: number,
): GroupedPatterns {
  const places = new Map<string, number>();
  const found: { counts: number[]; items: number }[] = [];
  let rated = 0;
  for (const row of rows) {
    const counts = new Array<number>(categories).fill(0);
    for (const category of row) if (category !== null) counts[category] = (counts[category] ?? 0) + 1;
    if (sum(counts) === 0) continue;
    const key = counts.join(" ");
    const place = places.get(key) ?? found.length;
    places.set(key, place);
    const entry = found[place];
    if (entry === undefined) found.push({ counts, items: 1 });
    else entry.items += 1;
    rated += 1;
  }
  return { patterns: found.map(({ counts, items }) => patternOf(counts, items)), rated };
}
