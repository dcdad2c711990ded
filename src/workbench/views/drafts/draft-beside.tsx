import { draftKey, kitNameOf, pageDraftOf } from "../../drafts/page-draft.ts";
import { workOf } from "../../state/state.ts";
import { FileButton } from "../study/file-button.tsx";
import { useStore } from "../use-store.ts";
import type { DraftProps } from "./draft-view.tsx";

/** Beside the page: how it stands, what can be taken away, and the way to another file. */
export function DraftBeside({ kind, store, words }: DraftProps) {
  const drafts = useStore(store, (state) => workOf(state).drafts);
  const drafted = useStore(store, (state) => state.drafted[kind]);
  const draft = pageDraftOf(drafts, kind);
  if (draft === null) return null;
  const { actions } = store;
  const said = words.drafts;
  const ready = drafted?.stands === true && drafted.of === draftKey(draft);
  const kit = draft.kit === null ? null : kitNameOf(draft);
  return (
    <div class="draft-beside">
      <button type="button" disabled={!ready} onClick={() => void actions.saveDraftPage(kind)}>
        {said.savePage}
      </button>
      <button
        type="button"
        class="plain"
        disabled={!ready}
        onClick={() => void actions.saveDraftFolder(kind)}
      >
        {said.saveFolder}
      </button>
      <button type="button" class="plain" onClick={() => actions.saveDraftText(kind, "file")}>
        {said.saveText(draft.name)}
      </button>
      {kit !== null && (
        <button type="button" class="plain" onClick={() => actions.saveDraftText(kind, "kit")}>
          {said.saveText(kit)}
        </button>
      )}
      {!ready && (
        <button type="button" class="plain" onClick={() => void actions.drawDraft(kind)}>
          {said.again}
        </button>
      )}
      <FileButton label={said.another} open={(files) => actions.openDraft(kind, files)} />
      <button type="button" class="plain" onClick={() => actions.closeDraft(kind)}>
        {said.close}
      </button>
    </div>
  );
}
