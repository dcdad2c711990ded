import { type Cell, MEASURES, type Measure, peopleIn, pooled, type StateCounts } from "./fields.ts";

/** So many of so many. */
export interface Part {
  readonly count: number;
  readonly total: number;
}
export type Extremes = Readonly<Record<Measure, { readonly lowest: Part; readonly highest: Part }>>;

/** Fewest and most diseased people among the unverified. */
export interface Reach {
  readonly fewest: number;
  readonly most: number;
}

interface Table {
  readonly reactive: StateCounts;
  readonly nonreactive: StateCounts;
}

/**
 * The lowest and highest value of each measure over every way in which the unverified may have the condition.
 * Sensitivity, specificity and both predictive values are all lowest in one and the same case: as few as can be
 * of the reactive diseased, as many as can be of the nonreactive; and all highest in the opposite one.
 */
export function extremeCases(
  { reactive, nonreactive }: Table,
  reach: { readonly reactive: Reach; readonly nonreactive: Reach },
): Extremes {
  const completed = (amongReactive: number, amongNonreactive: number): Readonly<Record<Measure, Part>> => {
    const found = reactive.diseased + amongReactive;
    const missed = nonreactive.diseased + amongNonreactive;
    const wrong = peopleIn(reactive) - found;
    const cleared = peopleIn(nonreactive) - missed;
    return {
      sensitivity: { count: found, total: found + missed },
      specificity: { count: cleared, total: cleared + wrong },
      prevalence: { count: found + missed, total: found + missed + cleared + wrong },
      ppv: { count: found, total: found + wrong },
      npv: { count: cleared, total: cleared + missed },
    };
  };
  const worst = completed(reach.reactive.fewest, reach.nonreactive.most);
  const best = completed(reach.reactive.most, reach.nonreactive.fewest);
  const least = completed(reach.reactive.fewest, reach.nonreactive.fewest);
  const most = completed(reach.reactive.most, reach.nonreactive.most);
  const pairs = MEASURES.map((measure) => [
    measure,
    measure === "prevalence"
      ? { lowest: least.prevalence, highest: most.prevalence }
      : { lowest: worst[measure], highest: best[measure] },
  ]);
  return Object.fromEntries(pairs) as Extremes;
}

/** Anything may be true of the unverified. */
export function anything({ unverified }: StateCounts): Reach {
  return { fewest: 0, most: unverified };
}

/** Lowest and highest value of each measure, nothing being assumed; `null` where nobody need be counted. */
export function plainBounds(cells: readonly Cell[]) {
  const reactive = pooled(cells, "reactive");
  const nonreactive = pooled(cells, "nonreactive");
  const extremes = extremeCases(
    { reactive, nonreactive },
    { reactive: anything(reactive), nonreactive: anything(nonreactive) },
  );
  const shareOf = ({ count, total }: Part) => (total === 0 ? null : count / total);
  const rangeOf = (measure: Measure) => ({
    lowest: shareOf(extremes[measure].lowest),
    highest: shareOf(extremes[measure].highest),
  });
  return { sensitivity: rangeOf("sensitivity"), specificity: rangeOf("specificity") };
}
