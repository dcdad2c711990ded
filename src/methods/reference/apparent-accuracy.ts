/** The four probabilities of kit (first) and reference (second) among people of one truth. */
export interface FourCells {
  readonly bothReactive: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

/** What a study of kit against reference is expected to show, in shares of all people. */
export interface Against {
  readonly bothReactive: number;
  readonly kitOnly: number;
  readonly referenceOnly: number;
  readonly neither: number;
  /** `null` where the reference calls nobody positive. */
  readonly sensitivity: number | null;
  /** `null` where the reference calls nobody negative. */
  readonly specificity: number | null;
  readonly referencePositive: number;
  readonly presentAmongPositive: number | null;
  readonly presentAmongNegative: number | null;
}

/** Source: vacek1985 */
export function apparentAgainst(diseased: FourCells, nondiseased: FourCells, prevalence: number): Against {
  const mixed = (cell: keyof FourCells) => prevalence * diseased[cell] + (1 - prevalence) * nondiseased[cell];
  const [bothReactive, kitOnly] = [mixed("bothReactive"), mixed("firstOnly")];
  const [referenceOnly, neither] = [mixed("secondOnly"), mixed("neither")];
  const positive = bothReactive + referenceOnly;
  const negative = kitOnly + neither;
  const share = (part: number, whole: number) => (whole > 0 ? part / whole : null);
  return {
    bothReactive,
    kitOnly,
    referenceOnly,
    neither,
    sensitivity: share(bothReactive, positive),
    specificity: share(neither, negative),
    referencePositive: positive,
    presentAmongPositive: share(prevalence * (diseased.bothReactive + diseased.secondOnly), positive),
    presentAmongNegative: share(prevalence * (diseased.firstOnly + diseased.neither), negative),
  };
}
