import { type Note, note } from "../core/note.ts";
import type { CriterionOptions } from "../methods/proportion/criterion.ts";
import type { Study } from "../records/study.ts";

export type Criterion = Study["criteria"][number];

/** The proportion that a criterion demands, and on which side of it. */
export function demandOf(criterion: Criterion): { threshold: number; direction: "at_least" | "at_most" } {
  return criterion.at_least === undefined
    ? { threshold: criterion.at_most as number, direction: "at_most" }
    : { threshold: criterion.at_least, direction: "at_least" };
}

/** How a criterion is judged, as options of the methods, and what a reader of the verdict must know of it. */
export function judgedBy(
  interval: Study["interval"],
  { rule }: Pick<Criterion, "rule">,
): { readonly options: CriterionOptions; readonly notes: readonly Note[] } {
  const options = { ...interval, sides: "two" as const, rule };
  if (rule === "interval") return { options, notes: [] };
  if (rule === "point") {
    const message = "judged by the estimate alone: the interval plays no part in this verdict";
    return { options, notes: [note("point_rule", "verdict", message)] };
  }
  const message =
    "judged by one-sided limits at the study's level: the interval given here has twice the error";
  const notes = [note("one_sided_rule", "estimate", message)];
  if (interval.method !== "blaker") return { options, notes };
  const instead = "Blaker's interval has no one-sided limits: those of Clopper and Pearson instead";
  notes.push(note("clopper_pearson_instead", "estimate", instead));
  return { options: { ...options, method: "clopper_pearson" }, notes };
}
