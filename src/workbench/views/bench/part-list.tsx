import { views } from "../index.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** The parts of the workbench on one thin line, a dot at the open one: the strip, as a list. */
export function PartList({ store, words }: ViewProps) {
  const state = useStore(store, (whole) => whole);
  return (
    <nav class="parts" aria-label={words.bench.parts}>
      <ul>
        {views.map(({ id, title, status }) => (
          <li key={id}>
            <button
              type="button"
              class="bench-part"
              aria-current={id === state.view ? "page" : undefined}
              onClick={() => store.actions.show(id)}
            >
              <span class="part-title">{title(words)}</span>
              <span class="part-status">{status(state, words)}</span>
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
