import type { Exploration } from "../schema/exploration.ts";
import { shownPath } from "./choices.ts";

/** Whether the subgroups of a stratum are shown: all are, unless an exploration leaves them away. */
export function isShown(exploration: Exploration | null, stratum: string): boolean {
  const change = exploration?.changes.find(({ path }) => path === shownPath(stratum));
  return change === undefined || change.explored === true;
}
