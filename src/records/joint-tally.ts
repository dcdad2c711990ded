import type { Pair, PairedSet } from "./model.ts";
import { type Treatment, whereTo } from "./treatment.ts";

/** People by joint reference status and joint rapid result of two analytes. */
export interface JointTally {
  /** Rows: reference ++, +-, -+, --; columns: rapid result in the same order (first analyte first). */
  readonly table: readonly (readonly number[])[];
  readonly analysed: number;
  /** People of either set who are not in the table. */
  readonly setAside: number;
  readonly people: number;
}

/**
 * Counts the people who have a counted result for both analytes, by both references and both rapid
 * results. With a treatment that turns invalid results into results these are counted as such.
 */
export function jointTally(one: PairedSet, other: PairedSet, treatment: Treatment): JointTally {
  const partner = new Map(other.pairs.map((pair) => [pair.person, pair]));
  const table = [0, 1, 2, 3].map(() => [0, 0, 0, 0]);
  let people = 0;
  let analysed = 0;
  for (const pair of one.pairs) {
    people += pair.weight;
    const second = partner.get(pair.person);
    partner.delete(pair.person);
    if (second === undefined) continue;
    const first = endOf(pair, treatment);
    const last = endOf(second, treatment);
    if (first === null || last === null) continue;
    const row = table[first.reference * 2 + last.reference] as number[];
    const column = first.rapid * 2 + last.rapid;
    row[column] = (row[column] ?? 0) + pair.weight;
    analysed += pair.weight;
  }
  for (const left of partner.values()) people += left.weight;
  return { table, analysed, setAside: people - analysed, people };
}

/** 0 stands for positive or reactive, 1 for negative or nonreactive; `null`: not in a fourfold table. */
function endOf(pair: Pair, treatment: Treatment): { reference: 0 | 1; rapid: 0 | 1 } | null {
  switch (whereTo(pair, treatment)) {
    case "true_positive":
      return { reference: 0, rapid: 0 };
    case "false_negative":
      return { reference: 0, rapid: 1 };
    case "false_positive":
      return { reference: 1, rapid: 0 };
    case "true_negative":
      return { reference: 1, rapid: 1 };
    default:
      return null;
  }
}
