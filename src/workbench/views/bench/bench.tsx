import { views } from "../index.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { HistoryLine } from "./history-line.tsx";
import { KeptLine } from "./kept-line.tsx";
import { PartList } from "./part-list.tsx";
import { Sign } from "./sign.tsx";
import { TaskLine } from "./task-line.tsx";

/** The column at the side: what is open, the controls of the open part, what is being done, the way back. */
export function Bench({ store, words }: ViewProps) {
  const open = useStore(store, ({ view }) => view);
  const view = views.find(({ id }) => id === open);
  const Beside = view?.Beside;
  return (
    <header class="bench">
      <div class="bench-head">
        <Sign />
        <p class="bench-name">{words.bench.name}</p>
        <p class="bench-place">{words.bench.place}</p>
      </div>
      <PartList store={store} words={words} />
      {view !== undefined && Beside !== undefined && (
        <section class="beside-page" aria-label={words.bench.beside(view.title(words))}>
          <Beside store={store} words={words} />
        </section>
      )}
      <div class="bench-foot">
        <TaskLine store={store} words={words} />
        <HistoryLine store={store} words={words} />
        <KeptLine store={store} words={words} />
      </div>
    </header>
  );
}
