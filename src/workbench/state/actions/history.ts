import type { Core } from "../core.ts";
import { redone, undone } from "../history.ts";

/** Back and forth through the steps of the work. */
export function historyActions(core: Core) {
  return {
    undo(): void {
      const { history } = core.get();
      const what = history.past.at(-1)?.what;
      if (what === undefined) return;
      core.place(undone(history));
      core.set({ announced: core.words.bench.undone(what) });
    },
    redo(): void {
      const { history } = core.get();
      const what = history.future[0]?.what;
      if (what === undefined) return;
      core.place(redone(history));
      core.set({ announced: core.words.bench.redone(what) });
    },
  };
}
