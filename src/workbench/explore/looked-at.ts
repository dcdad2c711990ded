import type { Evaluation } from "../../evaluation/document.ts";
import { type Choice, choicesOf } from "../../evaluation/exploration/choices.ts";
import { exploredStudy, plannedStudy, type Wanted } from "../../evaluation/exploration/explored-study.ts";
import type { Chosen, Exploration } from "../../evaluation/schema/exploration.ts";
import type { Study } from "../../records/study.ts";

/** A place of the plan, with what it says and what is looked at instead. */
export interface LookedAt extends Choice {
  /** What the plan says. */
  readonly planned: Chosen;
  /** What is looked at: the plan's where nothing was changed. */
  readonly now: Chosen;
}

/** The study on the page with the choices of the work, which may be newer than the report. */
export interface Looking {
  readonly planned: Study;
  readonly study: Study;
  readonly exploration: Exploration | null;
  readonly choices: readonly LookedAt[];
}

/** What the controls show: the plan of the report's study with the present changes. */
export function lookingAt(evaluation: Evaluation, explored: readonly Wanted[]): Looking {
  const planned = plannedStudy(evaluation.study, evaluation.exploration);
  const { study, exploration } = exploredStudy(planned, explored);
  const choices = choicesOf(planned).map((choice): LookedAt => {
    const change = exploration?.changes.find(({ path }) => path === choice.path);
    return { ...choice, planned: choice.value, now: change === undefined ? choice.value : change.explored };
  });
  return { planned, study, exploration, choices };
}

/** The changes with one more: none where it is what the plan says. People are looked at in one way at a time. */
export function withChange(
  explored: readonly Wanted[],
  { path, planned }: Pick<LookedAt, "path" | "planned">,
  value: Chosen,
): readonly Wanted[] {
  const others = explored.filter((one) => one.path !== path);
  return value === planned ? others : [...others, { path, value }];
}

/** The changes with other people looked at, `null`: everybody. */
export function withPeople(explored: readonly Wanted[], people: Wanted | null): readonly Wanted[] {
  const others = explored.filter(({ path }) => !path.startsWith("subset."));
  return people === null ? others : [...others, people];
}
