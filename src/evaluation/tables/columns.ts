import type { Estimate, ProportionEstimate } from "../../core/estimate.ts";
import type { Cell } from "../csv.ts";

/** The same columns, in the same order, wherever a cell or an estimate appears. */
export const CELL_COLUMNS = ["analyte", "kit", "specimen", "reader"] as const;
export const ESTIMATE_COLUMNS = ["count", "total", "value", "lower", "upper"] as const;

export function cellColumns(cell: {
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  readonly reader: string;
}): Cell[] {
  return [cell.analyte, cell.kit, cell.specimen, cell.reader];
}

/** A proportion, or another estimate, which has no counts. */
export function estimateColumns(estimate: ProportionEstimate | Estimate): Cell[] {
  const counts: Cell[] = "count" in estimate ? [estimate.count, estimate.total] : [null, null];
  return [...counts, estimate.value, estimate.lower, estimate.upper];
}
