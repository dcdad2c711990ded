import type { Core } from "../core.ts";
import { workOf } from "../state.ts";
import type { Explored } from "../work.ts";

/** Changes over the stated plan, to see what follows. The study file is left as it is. */
export function exploreActions(core: Core) {
  return {
    /**
     * Looks at other choices; moving on in the same one is one step.
     *
     * @param what the choice in words, for "Undo: …"
     */
    explore(what: string, explored: readonly Explored[]): void {
      core.amend(core.words.explore.step(what), { explored });
    },
    /** Takes one change back: a step of its own, so that undo brings the change again. */
    backOne(what: string, path: string): void {
      const explored = workOf(core.get()).explored.filter((one) => one.path !== path);
      core.step(core.words.explore.backOne(what), { explored });
    },
    /** Takes all changes back, as one step. */
    backToPlan(): void {
      if (workOf(core.get()).explored.length === 0) return;
      core.step(core.words.explore.stepBack, { explored: [] });
    },
  };
}
