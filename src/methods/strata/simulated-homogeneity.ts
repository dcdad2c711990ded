import { randomStream } from "../../core/random.ts";
import { logGamma } from "../../numeric/gamma-function.ts";
import { randomTables } from "./random-table.ts";

/**
 * The p-value of `exactHomogeneity` from random tables: the share of those no more probable than the
 * one seen, the one seen among them, so that it is never 0.
 */
export function simulatedHomogeneity(
  totals: readonly number[],
  counts: readonly number[],
  draws: number,
  seed: number,
): number {
  const counted = counts.reduce((total, entry) => total + entry, 0);
  const logFactorials = Float64Array.from({ length: Math.max(...totals) + 1 }, (_, at) => logGamma(at + 1));
  const logWays = (table: readonly number[]) =>
    table.reduce((ways, entry, at) => {
      const others = (totals[at] ?? 0) - entry;
      return ways - (logFactorials[entry] as number) - (logFactorials[others] as number);
    }, 0);
  const bar = logWays(counts) + 1e-7;
  const random = randomStream(seed);
  const table = randomTables(totals, counted);
  let rare = 1;
  for (let draw = 0; draw < draws; draw += 1) {
    if (logWays(table(random)) <= bar) rare += 1;
  }
  return rare / (draws + 1);
}
