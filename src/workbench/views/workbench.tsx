import { useEffect } from "preact/hooks";
import { Bench } from "./bench/bench.tsx";
import { DropPlace } from "./bench/drop-place.tsx";
import { onKeys } from "./bench/keys.ts";
import { TroubleLine } from "./bench/trouble-line.tsx";
import { views } from "./index.ts";
import { useStore } from "./use-store.ts";
import type { ViewProps } from "./view.ts";

/** The whole page: the column at the side, and the part that is open. The others stay, hidden. */
export function Workbench({ store, words }: ViewProps) {
  const open = useStore(store, ({ view }) => view);
  const announced = useStore(store, (state) => state.announced);
  useEffect(() => onKeys(store), [store]);
  return (
    <div class="workbench">
      <a class="skip" href="#page">
        {words.bench.skip}
      </a>
      <Bench store={store} words={words} />
      <div class="page" id="page" tabIndex={-1}>
        <TroubleLine store={store} words={words} />
        {views.map(({ id, Page }) => (
          <div key={id} hidden={id !== open} class={`view view-${id}`}>
            <Page store={store} words={words} />
          </div>
        ))}
      </div>
      <p class="unseen" role="status">
        {announced}
      </p>
      <DropPlace store={store} words={words} />
    </div>
  );
}
