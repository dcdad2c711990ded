import * as v from "valibot";
import { type Study, StudySchema } from "../../records/study.ts";
import type { Change, Chosen, Exploration } from "../schema/exploration.ts";
import { choicesOf } from "./choices.ts";

/** A choice that someone wants changed, by its path. */
export interface Wanted {
  readonly path: string;
  readonly value: Chosen;
}

/** A study with choices changed, and what differs from its plan by that. */
interface ExploredStudy {
  readonly study: Study;
  /** `null` where nothing differs. */
  readonly exploration: Exploration | null;
}

/**
 * A study as it would be with other choices. What the plan says already, what it has no place for and what no
 * study file may say is passed over: the study file may have been changed since the choice was made.
 */
export function exploredStudy(planned: Study, wanted: readonly Wanted[]): ExploredStudy {
  const changes: Change[] = [];
  let study = planned;
  for (const { path, value, put } of choicesOf(planned)) {
    const asked = wanted.findLast((one) => one.path === path);
    if (asked === undefined || asked.value === value) continue;
    const changed = put(study, asked.value);
    if (!fits(path, asked.value) || !v.is(StudySchema, changed)) continue;
    study = changed;
    changes.push({ path, planned: value, explored: asked.value });
  }
  return { study, exploration: changes.length === 0 ? null : { changes } };
}

/** Choices that stand in no study file: strata are shown or not, a subset is named. */
function fits(path: string, value: Chosen): boolean {
  if (path.startsWith("strata.")) return typeof value === "boolean";
  return !path.startsWith("subset.") || typeof value === "string";
}

/** The study as its file states it, from one with choices changed. */
export function plannedStudy(study: Study, exploration: Exploration | null): Study {
  const changes = exploration?.changes ?? [];
  const choices = choicesOf(study);
  return changes.reduce((changed, { path, planned }) => {
    const choice = choices.find((one) => one.path === path);
    return choice === undefined ? changed : choice.put(changed, planned);
  }, study);
}
