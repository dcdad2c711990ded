/** One p-value adjusted for its family in four ways. */
export interface Adjusted {
  readonly bonferroni: number;
  readonly holm: number;
  readonly benjaminiHochberg: number;
  readonly fixedSequence: number;
}

/**
 * P-values adjusted for being several, in the order given, all at most 1.
 * Sources: holm1979, benjamini1995; the fixed sequence is their running maximum.
 */
export function adjustedP(pValues: readonly number[]): Adjusted[] {
  const size = pValues.length;
  const order = pValues.map((_, at) => at).sort((one, other) => valueAt(one) - valueAt(other));
  function valueAt(at: number): number {
    return pValues[at] as number;
  }
  const holm = new Array<number>(size);
  let highest = 0;
  for (const [rank, at] of order.entries()) {
    highest = Math.max(highest, Math.min(1, (size - rank) * valueAt(at)));
    holm[at] = highest;
  }
  const discovery = new Array<number>(size);
  let lowest = 1;
  for (const [step, at] of [...order].reverse().entries()) {
    lowest = Math.min(lowest, (size / (size - step)) * valueAt(at));
    discovery[at] = lowest;
  }
  let sequence = 0;
  return pValues.map((pValue, at) => {
    sequence = Math.max(sequence, pValue);
    return {
      bonferroni: Math.min(1, size * pValue),
      holm: holm[at] as number,
      benjaminiHochberg: discovery[at] as number,
      fixedSequence: sequence,
    };
  });
}
