import { quantileOf } from "../../methods/algorithms/quantities.ts";
import type { UncertainMoney, UncertainShare } from "../../methods/algorithms/uncertain-fields.ts";
import type { FileKit } from "../../records/algorithm/algorithm-schema.ts";
import type { Uncertain } from "../../records/algorithm/uncertain-fields.ts";

/** A share of the file, however it is stated, as the methods take it. */
export function shareOf(stated: Uncertain): UncertainShare {
  const { value, low, high, a, b } = stated;
  if (value !== undefined) return { kind: "value", value };
  if (low !== undefined && high !== undefined) return { kind: "range", low, high };
  if (a !== undefined && b !== undefined) return { kind: "beta", a, b };
  const right = stated.right ?? stated.invalid ?? stated.positive ?? 0;
  return { kind: "counts", right, total: stated.total ?? stated.tested ?? 0 };
}

/** What a device used costs: its price, and its part of those lost before use. */
export function moneyOf({ price, waste }: Pick<FileKit, "price" | "waste">): UncertainMoney {
  const kept = 1 - waste;
  if (price.low !== undefined && price.high !== undefined) {
    return { kind: "range", low: price.low / kept, high: price.high / kept };
  }
  return { kind: "value", value: (price.value ?? 0) / kept };
}

/** The middle of what a number may be: the median, as in every draw. */
export function centreOf(spread: UncertainShare | UncertainMoney): number {
  return quantileOf({ path: [], name: "", spread }, 0.5);
}

/** Values of a share, all equally probable: the middles of so many equal parts of its distribution. */
export function levelsOf(spread: UncertainShare, many: number): number[] {
  if (spread.kind === "value") return [spread.value];
  return Array.from({ length: many }, (_, at) =>
    quantileOf({ path: [], name: "", spread }, (at + 0.5) / many),
  );
}
