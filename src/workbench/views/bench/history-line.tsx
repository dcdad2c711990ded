import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** The way back and forth through the steps of the work. */
export function HistoryLine({ store, words }: ViewProps) {
  const back = useStore(store, ({ history }) => history.past.at(-1)?.what ?? null);
  const forth = useStore(store, ({ history }) => history.future[0]?.what ?? null);
  const { bench } = words;
  return (
    <div class="history">
      <button
        type="button"
        class="plain"
        disabled={back === null}
        title={back === null ? bench.nothingToUndo : bench.undoStep(back)}
        aria-label={back === null ? bench.nothingToUndo : bench.undoStep(back)}
        onClick={() => store.actions.undo()}
      >
        {bench.undo}
      </button>
      <button
        type="button"
        class="plain"
        disabled={forth === null}
        title={forth === null ? bench.nothingToRedo : bench.redoStep(forth)}
        aria-label={forth === null ? bench.nothingToRedo : bench.redoStep(forth)}
        onClick={() => store.actions.redo()}
      >
        {bench.redo}
      </button>
      <span class="last-step">{back}</span>
    </div>
  );
}
