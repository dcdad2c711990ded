import type { Core } from "../core.ts";
import type { Evaluating } from "../evaluating.ts";
import type { Foreground } from "../foreground.ts";
import { begun } from "../history.ts";
import type { Keeper } from "../keep.ts";
import { FIRST_STATE } from "../state.ts";
import type { ViewId } from "../view-id.ts";

interface Parts {
  readonly core: Core;
  readonly evaluating: Evaluating;
  readonly foreground: Foreground;
  readonly keeper: Keeper;
}

/** Moves about the workbench itself. */
export function benchActions({ core, evaluating, foreground, keeper }: Parts) {
  return {
    show(view: ViewId): void {
      core.set({ view });
    },
    /** Stops what is being computed. What the page shows stays. */
    stop(): void {
      foreground.stop();
      core.set({ announced: core.words.bench.stopped });
    },
    /** Computes the present work again, after a stop or a fault. */
    again(): void {
      core.set({ reading: null, trouble: null });
      void evaluating.begin();
    },
    dismissTrouble(): void {
      core.set({ trouble: null });
    },
    /** Takes everything from this page and from the browser's storage. Can't be undone. */
    wipe(): void {
      foreground.stop();
      keeper.wipe();
      core.set({ ...FIRST_STATE, announced: core.words.bench.wiped });
    },
    /** Brings back what was kept when the page was last left. */
    async bringBack(): Promise<void> {
      const found = await keeper.find();
      if (found === null) return;
      core.set({ view: found.view });
      core.place(begun(found.work));
    },
  };
}
