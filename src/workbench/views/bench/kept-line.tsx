import { useEffect, useRef, useState } from "preact/hooks";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** How much of the work lies in this browser, and the way to wipe it. */
export function KeptLine({ store, words }: ViewProps) {
  const kept = useStore(store, (state) => state.kept);
  const [asked, setAsked] = useState(false);
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asked) keep.current?.focus();
  }, [asked]);
  const { bench } = words;
  if (asked) {
    const wipe = () => {
      setAsked(false);
      store.actions.wipe();
    };
    return (
      <p class="kept">
        {bench.wipeAsk}{" "}
        <button type="button" class="plain" ref={keep} onClick={() => setAsked(false)}>
          {bench.wipeNo}
        </button>{" "}
        <button type="button" class="plain" onClick={wipe}>
          {bench.wipeYes}
        </button>
      </p>
    );
  }
  return (
    <p class="kept">
      {bench.kept[kept]}{" "}
      {kept !== "nothing" && (
        <button type="button" class="plain" onClick={() => setAsked(true)}>
          {bench.wipe}
        </button>
      )}
    </p>
  );
}
