import { useEffect, useState } from "preact/hooks";
import type { State } from "../state/state.ts";
import type { Store } from "../state/store.ts";

/** A part of the state; the component is drawn anew when that part is another. */
export function useStore<Part>(store: Store, pick: (state: State) => Part): Part {
  const [, drawAnew] = useState(0);
  const now = pick(store.get());
  useEffect(() => {
    let last = now;
    const check = () => {
      const next = pick(store.get());
      if (Object.is(next, last)) return;
      last = next;
      drawAnew((times) => times + 1);
    };
    check();
    return store.subscribe(check);
  });
  return now;
}
