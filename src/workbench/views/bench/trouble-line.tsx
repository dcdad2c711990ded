import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** What went wrong, above the open part, until it is dismissed. */
export function TroubleLine({ store, words }: ViewProps) {
  const trouble = useStore(store, (state) => state.trouble);
  return (
    <div role="alert">
      {trouble !== null && (
        <p class="trouble">
          <b>{words.trouble.kinds[trouble.kind]}</b> {trouble.detail}{" "}
          <button type="button" class="plain" onClick={() => store.actions.dismissTrouble()}>
            {words.trouble.dismiss}
          </button>
        </p>
      )}
    </div>
  );
}
