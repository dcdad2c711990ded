import type { ComparisonPlan, CriterionPlan, Group, PlanAnswer, WidthPlan } from "../document.ts";

export type Need = PlanAnswer["byAnalyte"][number]["positives"];

/** What asks for people of one kind. */
export interface Asking {
  readonly criteria: readonly CriterionPlan[];
  readonly widths: readonly WidthPlan[];
  readonly comparisons: readonly ComparisonPlan[];
}

/**
 * How many people of one kind an analyte needs, with the kit that is planned for. One person serves every
 * criterion, width and paired comparison, and the first group of an unpaired one: the largest of them counts.
 * What can't be planned asks for nobody.
 */
export function needOf({ criteria, widths, comparisons }: Asking, analyte: string, group: Group): Need {
  const here = (one: { readonly analyte: string; readonly of: Group }) =>
    one.analyte === analyte && one.of === group;
  const asked = [
    ...criteria.filter(here).map(({ criterion, needed }) => ({ id: criterion, needed })),
    ...widths.filter(here).map(({ width, needed }) => ({ id: width, needed })),
    ...comparisons
      .filter(here)
      .map(({ comparison, groups, needed }) => ({ id: comparison, needed: groups?.first ?? needed })),
  ];
  return asked.reduce<Need>(
    (most, { id, needed }) =>
      needed !== null && needed > (most.needed ?? 0) ? { needed, because: id } : most,
    { needed: null, because: null },
  );
}
