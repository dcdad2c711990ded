import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { Bench } from "./bench/bench.tsx";
import { DropPlace } from "./bench/drop-place.tsx";
import { onKeys } from "./bench/keys.ts";
import { TroubleLine } from "./bench/trouble-line.tsx";
import { views } from "./index.ts";
import { useStore } from "./use-store.ts";
import type { ViewProps } from "./view.ts";

/** Another part begins at its top; where the button that led there is gone, the focus goes with it. */
function begunAtTop(page: HTMLElement | null): void {
  if (page === null) return;
  window.scrollTo(0, 0);
  const { activeElement } = document;
  const gone = activeElement === document.body || activeElement?.closest("[hidden]") !== null;
  if (gone && activeElement !== null) page.focus({ preventScroll: true });
}

/** The whole page: the column at the side, and the part that is open. The others stay, hidden. */
export function Workbench({ store, words }: ViewProps) {
  const open = useStore(store, ({ view }) => view);
  const announced = useStore(store, (state) => state.announced);
  const page = useRef<HTMLDivElement>(null);
  useEffect(() => onKeys(store), [store]);
  useLayoutEffect(() => begunAtTop(page.current), [open]);
  return (
    <div class="workbench">
      <a class="skip" href="#page">
        {words.bench.skip}
      </a>
      <Bench store={store} words={words} />
      <div class="page" id="page" tabIndex={-1} ref={page}>
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
