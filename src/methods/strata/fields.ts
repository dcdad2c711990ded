import { count, draws, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";

/** One stratum: a site, a lot, an operator. */
export const stratum = {
  label: text("name of the stratum"),
  count: count("how many of them in this stratum"),
  total: count("of how many observed in this stratum"),
};

export interface Stratum {
  readonly label: string;
  readonly count: number;
  readonly total: number;
}

/** @throws InputError where a count is larger than its total */
export function requireStrata(strata: readonly Stratum[]): void {
  strata.forEach((entry, index) => {
    if (entry.count <= entry.total) return;
    const place = ["input", "strata", index, "count"];
    throw new InputError(place, `at most the total, ${entry.total}`, entry.count);
  });
}

/** Number of random tables where an exact p-value would take too long. */
export function tables() {
  return draws("random tables where the exact p-value would take too long", 20_000, 10_000_000);
}
