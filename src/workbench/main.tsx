import "../core/same-math.ts";
import { hydrate } from "preact";
import { browserOutside } from "./browser/outside.ts";
import { createStore } from "./state/store.ts";
import { Workbench } from "./views/workbench.tsx";
import { en } from "./words/en.ts";
import { serve, type WorkerScope } from "./work/serve.ts";

/** Brings the page to life, in whose place its first state stands as markup already. */
async function open(place: Element, program: string): Promise<void> {
  const store = createStore(browserOutside(program), en);
  hydrate(<Workbench store={store} words={en} />, place);
  // Until now a click would have been lost.
  place.removeAttribute("inert");
  await store.actions.bringBack();
  document.documentElement.removeAttribute("data-kept");
}

/**
 * The same program runs as page and as worker; the worker gets it from the address that the page got it from.
 * It is a plain script and no module: browsers start no module worker for a page that was opened from disk.
 */
function begin(): void {
  if ("WorkerGlobalScope" in globalThis) {
    serve(globalThis as unknown as WorkerScope);
    return;
  }
  const place = document.getElementById("workbench");
  const script = document.currentScript;
  if (place !== null && script instanceof HTMLScriptElement) open(place, script.src).catch(cannotStart);
}

/** The line for this stands in the page beside the starter, which has the same to tell. */
function cannotStart(error: unknown): void {
  document.documentElement.removeAttribute("data-kept");
  document.getElementById("cannot-start")?.removeAttribute("hidden");
  document.getElementById("why")?.replaceChildren(String(error));
}

begin();
