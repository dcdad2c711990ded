import { hydrate } from "preact";
import { browserOutside } from "./browser/outside.ts";
import { createStore } from "./state/store.ts";
import { Workbench } from "./views/workbench.tsx";
import { en } from "./words/en.ts";
import { serve, type WorkerScope } from "./work/serve.ts";

/** The same program runs as page and as worker; a worker has this scope. */
const inWorker = "WorkerGlobalScope" in globalThis;

if (inWorker) serve(globalThis as unknown as WorkerScope);

/**
 * Brings the page to life: called by the starter once the program is there.
 * @param place   the element in which the first page stands already
 * @param program address of this program's own text, for the worker
 */
export async function open(place: Element, program: string): Promise<void> {
  const store = createStore(browserOutside(program), en);
  hydrate(<Workbench store={store} words={en} />, place);
  await store.actions.bringBack();
  document.documentElement.removeAttribute("data-kept");
}
