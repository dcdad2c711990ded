/** People of one reference status by the results of both kits (or of one kit on both specimens). */
export interface PairedCounts {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

export function peopleOf({ both, firstOnly, secondOnly, neither }: PairedCounts): number {
  return both + firstOnly + secondOnly + neither;
}
