import { useEffect } from "preact/hooks";
import { type DraftKind, draftKey, type PageDraft, pageDraftOf } from "../../drafts/page-draft.ts";
import { workOf } from "../../state/state.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { BeginDraft } from "./begin-draft.tsx";
import { DraftEditor } from "./draft-editor.tsx";
import { DraftFaults } from "./draft-faults.tsx";
import { Drawn } from "./drawn.tsx";

export interface DraftProps extends ViewProps {
  readonly kind: DraftKind;
}

/** A page made from one file: the ways to begin, or the file and under it its page, live. */
export function DraftView({ kind, store, words }: DraftProps) {
  const drafts = useStore(store, (state) => workOf(state).drafts);
  const draft = pageDraftOf(drafts, kind);
  if (draft === null) return <BeginDraft kind={kind} store={store} words={words} />;
  return <OpenDraft kind={kind} draft={draft} store={store} words={words} />;
}

function OpenDraft({ kind, draft, store, words }: DraftProps & { readonly draft: PageDraft }) {
  const shown = useStore(store, ({ view }) => view === kind);
  const drafted = useStore(store, (state) => state.drafted[kind]);
  const key = draftKey(draft);
  useEffect(() => {
    if (shown) void store.actions.drawDraft(kind);
  }, [key, shown]);
  const page = drafted?.page ?? null;
  const said = words.drafts;
  const faulty = drafted !== null && drafted.of === key && !drafted.stands;
  return (
    <>
      <DraftEditor kind={kind} draft={draft} store={store} words={words} />
      {faulty && <DraftFaults issues={drafted.issues} words={words} />}
      {page !== null && (
        <p class="draft-earlier how">
          {faulty ? said.earlierFaults : drafted?.of === key ? "" : said.earlier}
        </p>
      )}
      {page !== null && <Drawn page={page} words={words} />}
      {page === null && (
        <main>
          <p class="over">{said.kinds[kind].over}</p>
          <h1>{faulty ? said.notReadableHeading : said.coming}</h1>
        </main>
      )}
    </>
  );
}
