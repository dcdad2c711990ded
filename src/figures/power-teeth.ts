/** One point of a power curve: a total, the fewest in favour that meet the criterion, and the chance that they come. */
export interface PowerPoint {
  readonly total: number;
  readonly needed: number | null;
  readonly power: number;
}

/** A run of totals with the same number of failures allowed: along it power only falls. */
export interface Tooth {
  /** Most failures with which the criterion is met; `null` where no result meets it. */
  readonly allowed: number | null;
  readonly from: number;
  readonly to: number;
  /** Power at the first and at the last total of the run. */
  readonly powerFrom: number;
  readonly powerTo: number;
}

/** A power curve cut into its teeth: a new one begins wherever another failure becomes allowed. */
export function powerTeeth(curve: readonly PowerPoint[]): Tooth[] {
  const teeth: Tooth[] = [];
  for (const { total, needed, power } of curve) {
    const allowed = needed === null ? null : total - needed;
    const last = teeth.at(-1);
    if (last !== undefined && last.allowed === allowed && last.to === total - 1) {
      teeth[teeth.length - 1] = { ...last, to: total, powerTo: power };
    } else {
      teeth.push({ allowed, from: total, to: total, powerFrom: power, powerTo: power });
    }
  }
  return teeth;
}
